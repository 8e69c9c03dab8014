using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Cogwright.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class PartLibrary : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "PartLibrary",
                schema: "cogwright",
                columns: table => new
                {
                    Number = table.Column<int>(type: "integer", nullable: false),
                    Revision = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_PartLibrary", x => x.Number);
                });

            migrationBuilder.CreateTable(
                name: "Parts",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<string>(type: "character varying(64)", maxLength: 64, nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Maker = table.Column<string>(type: "text", nullable: false),
                    Content = table.Column<string>(type: "text", nullable: false),
                    IsDemo = table.Column<bool>(type: "boolean", nullable: false),
                    UpdatedTicks = table.Column<long>(type: "bigint", nullable: false),
                    Revision = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Parts", x => x.Id);
                });

            migrationBuilder.InsertData(
                schema: "cogwright",
                table: "PartLibrary",
                columns: new[] { "Number", "Revision" },
                values: new object[] { 1, 0L });

            migrationBuilder.CreateIndex(
                name: "IX_Parts_Revision",
                schema: "cogwright",
                table: "Parts",
                column: "Revision");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "PartLibrary",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Parts",
                schema: "cogwright");
        }
    }
}

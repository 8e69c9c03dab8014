using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Cogwright.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class JobOverview : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "FoldedLogs",
                schema: "cogwright",
                columns: table => new
                {
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    Receipt = table.Column<long>(type: "bigint", nullable: false),
                    Version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FoldedLogs", x => x.Log);
                });

            migrationBuilder.CreateTable(
                name: "Jobs",
                schema: "cogwright",
                columns: table => new
                {
                    Number = table.Column<long>(type: "bigint", nullable: false),
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    Job = table.Column<string>(type: "text", nullable: false),
                    Bike = table.Column<string>(type: "text", nullable: false),
                    Title = table.Column<string>(type: "text", nullable: false),
                    Kind = table.Column<string>(type: "text", nullable: false),
                    Stage = table.Column<string>(type: "text", nullable: false),
                    InHandsOf = table.Column<string>(type: "text", nullable: false),
                    Waits = table.Column<string>(type: "text", nullable: false),
                    BegunTicks = table.Column<long>(type: "bigint", nullable: false),
                    LastTicks = table.Column<long>(type: "bigint", nullable: false),
                    ClosedTicks = table.Column<long>(type: "bigint", nullable: true),
                    DueDay = table.Column<int>(type: "integer", nullable: true),
                    Due = table.Column<string>(type: "text", nullable: false),
                    Cause = table.Column<string>(type: "text", nullable: false),
                    ComebackOf = table.Column<string>(type: "text", nullable: false),
                    IntakeSeconds = table.Column<long>(type: "bigint", nullable: false),
                    CompatibilitySeconds = table.Column<long>(type: "bigint", nullable: false),
                    TargetsSeconds = table.Column<long>(type: "bigint", nullable: false),
                    SetUpSeconds = table.Column<long>(type: "bigint", nullable: false),
                    TestSeconds = table.Column<long>(type: "bigint", nullable: false),
                    HandoverSeconds = table.Column<long>(type: "bigint", nullable: false),
                    AftercareSeconds = table.Column<long>(type: "bigint", nullable: false),
                    PauseSeconds = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Jobs", x => x.Number);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_Cause_BegunTicks",
                schema: "cogwright",
                table: "Jobs",
                columns: new[] { "Cause", "BegunTicks" });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_ClosedTicks_LastTicks",
                schema: "cogwright",
                table: "Jobs",
                columns: new[] { "ClosedTicks", "LastTicks" });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_DueDay",
                schema: "cogwright",
                table: "Jobs",
                column: "DueDay");

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_Log",
                schema: "cogwright",
                table: "Jobs",
                column: "Log");

            // Outside the model: vectors of words that come ready made (SearchWords); no parser and no extension is asked for.
            migrationBuilder.Sql(
                """CREATE TABLE cogwright."JobSearch" ("Number" bigint PRIMARY KEY, "Words" tsvector NOT NULL)"""
            );
            migrationBuilder.Sql(
                """CREATE INDEX "IX_JobSearch_Words" ON cogwright."JobSearch" USING gin ("Words")"""
            );
            migrationBuilder.Sql(
                """CREATE TABLE cogwright."JobSaid" ("Number" bigint PRIMARY KEY, "Words" tsvector NOT NULL)"""
            );
            migrationBuilder.Sql(
                """CREATE INDEX "IX_JobSaid_Words" ON cogwright."JobSaid" USING gin ("Words") WITH (fastupdate = off)"""
            );
            // The planner's statistics keep samples of what a table holds, and keep them when it is erased: none are made of personal
            // data any more, and those that were made go (with a change of type, here to the same one, which rewrites nothing).
            migrationBuilder.Sql(
                """
                ALTER TABLE cogwright."Personal" ALTER "Data" TYPE bytea, ALTER "Salt" TYPE bytea;
                ALTER TABLE cogwright."Personal" ALTER "Data" SET STATISTICS 0, ALTER "Salt" SET STATISTICS 0
                """
            );
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""DROP TABLE cogwright."JobSaid"; DROP TABLE cogwright."JobSearch" """);
            migrationBuilder.DropTable(
                name: "FoldedLogs",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Jobs",
                schema: "cogwright");
        }
    }
}

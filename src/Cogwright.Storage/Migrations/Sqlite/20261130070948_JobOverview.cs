using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Cogwright.Storage.Migrations.Sqlite
{
    /// <inheritdoc />
    public partial class JobOverview : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "FoldedLogs",
                columns: table => new
                {
                    Log = table.Column<byte[]>(type: "BLOB", nullable: false),
                    Receipt = table.Column<long>(type: "INTEGER", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_FoldedLogs", x => x.Log);
                });

            migrationBuilder.CreateTable(
                name: "Jobs",
                columns: table => new
                {
                    Number = table.Column<long>(type: "INTEGER", nullable: false),
                    Log = table.Column<byte[]>(type: "BLOB", nullable: false),
                    Job = table.Column<string>(type: "TEXT", nullable: false),
                    Bike = table.Column<string>(type: "TEXT", nullable: false),
                    Title = table.Column<string>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Stage = table.Column<string>(type: "TEXT", nullable: false),
                    InHandsOf = table.Column<string>(type: "TEXT", nullable: false),
                    Waits = table.Column<string>(type: "TEXT", nullable: false),
                    BegunTicks = table.Column<long>(type: "INTEGER", nullable: false),
                    LastTicks = table.Column<long>(type: "INTEGER", nullable: false),
                    ClosedTicks = table.Column<long>(type: "INTEGER", nullable: true),
                    DueDay = table.Column<int>(type: "INTEGER", nullable: true),
                    Due = table.Column<string>(type: "TEXT", nullable: false),
                    Cause = table.Column<string>(type: "TEXT", nullable: false),
                    ComebackOf = table.Column<string>(type: "TEXT", nullable: false),
                    IntakeSeconds = table.Column<long>(type: "INTEGER", nullable: false),
                    CompatibilitySeconds = table.Column<long>(type: "INTEGER", nullable: false),
                    TargetsSeconds = table.Column<long>(type: "INTEGER", nullable: false),
                    SetUpSeconds = table.Column<long>(type: "INTEGER", nullable: false),
                    TestSeconds = table.Column<long>(type: "INTEGER", nullable: false),
                    HandoverSeconds = table.Column<long>(type: "INTEGER", nullable: false),
                    AftercareSeconds = table.Column<long>(type: "INTEGER", nullable: false),
                    PauseSeconds = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Jobs", x => x.Number);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_Cause_BegunTicks",
                table: "Jobs",
                columns: new[] { "Cause", "BegunTicks" });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_ClosedTicks_LastTicks",
                table: "Jobs",
                columns: new[] { "ClosedTicks", "LastTicks" });

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_DueDay",
                table: "Jobs",
                column: "DueDay");

            migrationBuilder.CreateIndex(
                name: "IX_Jobs_Log",
                table: "Jobs",
                column: "Log");

            // Outside the model: full-text tables. Words come ready made (SearchWords), so the tokenizer has nothing to decide; no
            // positions are kept, since none are asked for; the tables of beginnings make short ones as quick as whole words.
            migrationBuilder.Sql(
                """CREATE VIRTUAL TABLE "JobSearch" USING fts5("Words", tokenize = 'ascii', detail = 'none', prefix = '1 2 3 4 5 6 7 8 9 10 11 12')"""
            );
            migrationBuilder.Sql(
                """CREATE VIRTUAL TABLE "JobSaid" USING fts5("Words", tokenize = 'ascii', detail = 'none', prefix = '1 2 3 4 5 6 7 8 9 10 11 12')"""
            );
            // A full-text table notes a deletion and leaves the word until it tidies up, unless it is told otherwise.
            migrationBuilder.Sql("""INSERT INTO "JobSaid" ("JobSaid", "rank") VALUES ('secure-delete', 1)""");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("""DROP TABLE "JobSaid"; DROP TABLE "JobSearch" """);
            migrationBuilder.DropTable(
                name: "FoldedLogs");

            migrationBuilder.DropTable(
                name: "Jobs");
        }
    }
}

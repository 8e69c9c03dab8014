using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Cogwright.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class First : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.EnsureSchema(
                name: "cogwright");

            migrationBuilder.CreateTable(
                name: "AspNetRoles",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetRoles", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUsers",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    DisplayName = table.Column<string>(type: "character varying(128)", maxLength: 128, nullable: false),
                    PinHash = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    Active = table.Column<bool>(type: "boolean", nullable: false),
                    CreatedTicks = table.Column<long>(type: "bigint", nullable: false),
                    UserName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedUserName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    Email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    PasswordHash = table.Column<string>(type: "text", nullable: true),
                    SecurityStamp = table.Column<string>(type: "text", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "text", nullable: true),
                    PhoneNumber = table.Column<string>(type: "text", nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    LockoutEnd = table.Column<long>(type: "bigint", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    AccessFailedCount = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUsers", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "CustomerLinks",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    TokenHash = table.Column<byte[]>(type: "bytea", maxLength: 32, nullable: false),
                    CreatedBy = table.Column<Guid>(type: "uuid", nullable: false),
                    CreatedTicks = table.Column<long>(type: "bigint", nullable: false),
                    ExpiresTicks = table.Column<long>(type: "bigint", nullable: false),
                    RevokedTicks = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_CustomerLinks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Entries",
                schema: "cogwright",
                columns: table => new
                {
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    Receipt = table.Column<long>(type: "bigint", nullable: false),
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Device = table.Column<Guid>(type: "uuid", nullable: false),
                    Sequence = table.Column<long>(type: "bigint", nullable: false),
                    Hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    Previous = table.Column<byte[]>(type: "bytea", nullable: true),
                    IsLinked = table.Column<bool>(type: "boolean", nullable: false),
                    ReceivedTicks = table.Column<long>(type: "bigint", nullable: false),
                    Encoded = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Entries", x => new { x.Log, x.Receipt });
                });

            migrationBuilder.CreateTable(
                name: "Epochs",
                schema: "cogwright",
                columns: table => new
                {
                    Number = table.Column<long>(type: "bigint", nullable: false),
                    Epoch = table.Column<Guid>(type: "uuid", nullable: false),
                    BeganTicks = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Epochs", x => x.Number);
                });

            migrationBuilder.CreateTable(
                name: "Erasures",
                schema: "cogwright",
                columns: table => new
                {
                    Digest = table.Column<byte[]>(type: "bytea", nullable: false),
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    ErasedTicks = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Erasures", x => x.Digest);
                });

            migrationBuilder.CreateTable(
                name: "Logs",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    LastReceipt = table.Column<long>(type: "bigint", nullable: false),
                    Unlinked = table.Column<long>(type: "bigint", nullable: false),
                    CreatedTicks = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Logs", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Personal",
                schema: "cogwright",
                columns: table => new
                {
                    Digest = table.Column<byte[]>(type: "bytea", nullable: false),
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    ContentType = table.Column<string>(type: "text", nullable: false),
                    SizeBytes = table.Column<long>(type: "bigint", nullable: false),
                    StoredTicks = table.Column<long>(type: "bigint", nullable: false),
                    Salt = table.Column<byte[]>(type: "bytea", nullable: false),
                    Data = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Personal", x => x.Digest);
                });

            migrationBuilder.CreateTable(
                name: "Refused",
                schema: "cogwright",
                columns: table => new
                {
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    Hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    ReceivedTicks = table.Column<long>(type: "bigint", nullable: false),
                    Encoded = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Refused", x => new { x.Log, x.Hash });
                });

            migrationBuilder.CreateTable(
                name: "ShopSettings",
                schema: "cogwright",
                columns: table => new
                {
                    Name = table.Column<string>(type: "character varying(128)", maxLength: 128, nullable: false),
                    Value = table.Column<string>(type: "text", nullable: false),
                    ChangedTicks = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShopSettings", x => x.Name);
                });

            migrationBuilder.CreateTable(
                name: "Statements",
                schema: "cogwright",
                columns: table => new
                {
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    Serial = table.Column<long>(type: "bigint", nullable: false),
                    Encoded = table.Column<byte[]>(type: "bytea", nullable: false),
                    Signature = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Statements", x => new { x.Log, x.Serial });
                });

            migrationBuilder.CreateTable(
                name: "Tips",
                schema: "cogwright",
                columns: table => new
                {
                    Log = table.Column<Guid>(type: "uuid", nullable: false),
                    Hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    Device = table.Column<Guid>(type: "uuid", nullable: false),
                    Sequence = table.Column<long>(type: "bigint", nullable: false),
                    Id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Tips", x => new { x.Log, x.Hash });
                });

            migrationBuilder.CreateTable(
                name: "AspNetRoleClaims",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    RoleId = table.Column<Guid>(type: "uuid", nullable: false),
                    ClaimType = table.Column<string>(type: "text", nullable: true),
                    ClaimValue = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetRoleClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetRoleClaims_AspNetRoles_RoleId",
                        column: x => x.RoleId,
                        principalSchema: "cogwright",
                        principalTable: "AspNetRoles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserClaims",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    UserId = table.Column<Guid>(type: "uuid", nullable: false),
                    ClaimType = table.Column<string>(type: "text", nullable: true),
                    ClaimValue = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetUserClaims_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalSchema: "cogwright",
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserLogins",
                schema: "cogwright",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    ProviderKey = table.Column<string>(type: "text", nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "text", nullable: true),
                    UserId = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AspNetUserLogins_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalSchema: "cogwright",
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserRoles",
                schema: "cogwright",
                columns: table => new
                {
                    UserId = table.Column<Guid>(type: "uuid", nullable: false),
                    RoleId = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserRoles", x => new { x.UserId, x.RoleId });
                    table.ForeignKey(
                        name: "FK_AspNetUserRoles_AspNetRoles_RoleId",
                        column: x => x.RoleId,
                        principalSchema: "cogwright",
                        principalTable: "AspNetRoles",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "FK_AspNetUserRoles_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalSchema: "cogwright",
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "AspNetUserTokens",
                schema: "cogwright",
                columns: table => new
                {
                    UserId = table.Column<Guid>(type: "uuid", nullable: false),
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserTokens", x => new { x.UserId, x.LoginProvider, x.Name });
                    table.ForeignKey(
                        name: "FK_AspNetUserTokens_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalSchema: "cogwright",
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "DeviceSessions",
                schema: "cogwright",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    AccountId = table.Column<Guid>(type: "uuid", nullable: false),
                    Device = table.Column<Guid>(type: "uuid", nullable: true),
                    DeviceName = table.Column<string>(type: "character varying(128)", maxLength: 128, nullable: false),
                    TokenHash = table.Column<byte[]>(type: "bytea", maxLength: 32, nullable: false),
                    IsTrusted = table.Column<bool>(type: "boolean", nullable: false),
                    CreatedTicks = table.Column<long>(type: "bigint", nullable: false),
                    LastSeenTicks = table.Column<long>(type: "bigint", nullable: false),
                    ExpiresTicks = table.Column<long>(type: "bigint", nullable: false),
                    RevokedTicks = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DeviceSessions", x => x.Id);
                    table.ForeignKey(
                        name: "FK_DeviceSessions_AspNetUsers_AccountId",
                        column: x => x.AccountId,
                        principalSchema: "cogwright",
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_AspNetRoleClaims_RoleId",
                schema: "cogwright",
                table: "AspNetRoleClaims",
                column: "RoleId");

            migrationBuilder.CreateIndex(
                name: "RoleNameIndex",
                schema: "cogwright",
                table: "AspNetRoles",
                column: "NormalizedName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserClaims_UserId",
                schema: "cogwright",
                table: "AspNetUserClaims",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserLogins_UserId",
                schema: "cogwright",
                table: "AspNetUserLogins",
                column: "UserId");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserRoles_RoleId",
                schema: "cogwright",
                table: "AspNetUserRoles",
                column: "RoleId");

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                schema: "cogwright",
                table: "AspNetUsers",
                column: "NormalizedEmail");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                schema: "cogwright",
                table: "AspNetUsers",
                column: "NormalizedUserName",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_CustomerLinks_Log",
                schema: "cogwright",
                table: "CustomerLinks",
                column: "Log");

            migrationBuilder.CreateIndex(
                name: "IX_CustomerLinks_TokenHash",
                schema: "cogwright",
                table: "CustomerLinks",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_DeviceSessions_AccountId",
                schema: "cogwright",
                table: "DeviceSessions",
                column: "AccountId");

            migrationBuilder.CreateIndex(
                name: "IX_DeviceSessions_TokenHash",
                schema: "cogwright",
                table: "DeviceSessions",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Entries_Log_Device_Sequence",
                schema: "cogwright",
                table: "Entries",
                columns: new[] { "Log", "Device", "Sequence" });

            migrationBuilder.CreateIndex(
                name: "IX_Entries_Log_Id",
                schema: "cogwright",
                table: "Entries",
                columns: new[] { "Log", "Id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_Erasures_Log",
                schema: "cogwright",
                table: "Erasures",
                column: "Log");

            migrationBuilder.CreateIndex(
                name: "IX_Personal_Log_SizeBytes",
                schema: "cogwright",
                table: "Personal",
                columns: new[] { "Log", "SizeBytes" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "AspNetRoleClaims",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "AspNetUserClaims",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "AspNetUserLogins",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "AspNetUserRoles",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "AspNetUserTokens",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "CustomerLinks",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "DeviceSessions",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Entries",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Epochs",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Erasures",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Logs",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Personal",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Refused",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "ShopSettings",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Statements",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "Tips",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "AspNetRoles",
                schema: "cogwright");

            migrationBuilder.DropTable(
                name: "AspNetUsers",
                schema: "cogwright");
        }
    }
}

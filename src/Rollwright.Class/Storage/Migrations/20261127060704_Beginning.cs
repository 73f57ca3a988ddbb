using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Rollwright.Class.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Beginning : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.EnsureSchema(name: "class");

            migrationBuilder.CreateTable(
                name: "Copies",
                schema: "class",
                columns: table => new
                {
                    Lesson = table.Column<Guid>(type: "uuid", nullable: false),
                    Member = table.Column<string>(type: "text", nullable: false),
                    Break = table.Column<Guid>(type: "uuid", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Copies", x => new { x.Lesson, x.Member });
                }
            );

            migrationBuilder.CreateTable(
                name: "DataProtectionKeys",
                schema: "class",
                columns: table => new
                {
                    Id = table
                        .Column<int>(type: "integer", nullable: false)
                        .Annotation(
                            "Npgsql:ValueGenerationStrategy",
                            NpgsqlValueGenerationStrategy.IdentityByDefaultColumn
                        ),
                    FriendlyName = table.Column<string>(type: "text", nullable: true),
                    Xml = table.Column<string>(type: "text", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DataProtectionKeys", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "Documents",
                schema: "class",
                columns: table => new
                {
                    Lesson = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    FileName = table.Column<string>(type: "text", nullable: false),
                    Type = table.Column<string>(type: "text", nullable: false),
                    Bytes = table.Column<byte[]>(type: "bytea", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Documents", x => new { x.Lesson, x.Name });
                }
            );

            migrationBuilder.CreateTable(
                name: "Invitations",
                schema: "class",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Digest = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Role = table.Column<int>(type: "integer", nullable: false),
                    Member = table.Column<string>(type: "text", nullable: true),
                    MadeAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    EndsAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    UsedAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Invitations", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "Lessons",
                schema: "class",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Source = table.Column<Guid>(type: "uuid", nullable: false),
                    Title = table.Column<string>(type: "text", nullable: false),
                    About = table.Column<string>(type: "text", nullable: false),
                    By = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    WithdrawnAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    Tune = table.Column<string>(type: "text", nullable: false),
                    Wishes = table.Column<string>(type: "text", nullable: false),
                    Break = table.Column<string>(type: "text", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Lessons", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "Members",
                schema: "class",
                columns: table => new
                {
                    Id = table.Column<string>(type: "text", nullable: false),
                    Role = table.Column<int>(type: "integer", nullable: false),
                    JoinedAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    ClosedAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    UserName = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedUserName = table.Column<string>(
                        type: "character varying(256)",
                        maxLength: 256,
                        nullable: true
                    ),
                    Email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(
                        type: "character varying(256)",
                        maxLength: 256,
                        nullable: true
                    ),
                    EmailConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    PasswordHash = table.Column<string>(type: "text", nullable: true),
                    SecurityStamp = table.Column<string>(type: "text", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "text", nullable: true),
                    PhoneNumber = table.Column<string>(type: "text", nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "boolean", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    LockoutEnd = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "boolean", nullable: false),
                    AccessFailedCount = table.Column<int>(type: "integer", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Members", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "Practice",
                schema: "class",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Lesson = table.Column<Guid>(type: "uuid", nullable: false),
                    Pupil = table.Column<string>(type: "text", nullable: true),
                    Words = table.Column<string>(type: "text", nullable: false),
                    Tempo = table.Column<int>(type: "integer", nullable: true),
                    Due = table.Column<DateOnly>(type: "date", nullable: true),
                    By = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Practice", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "Takes",
                schema: "class",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Lesson = table.Column<Guid>(type: "uuid", nullable: false),
                    Pupil = table.Column<string>(type: "text", nullable: false),
                    Take = table.Column<Guid>(type: "uuid", nullable: false),
                    Ending = table.Column<string>(type: "text", nullable: false),
                    Words = table.Column<string>(type: "text", nullable: false),
                    At = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    Answer = table.Column<string>(type: "text", nullable: false),
                    AnsweredBy = table.Column<string>(type: "text", nullable: true),
                    AnsweredAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Takes", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUserClaims",
                schema: "class",
                columns: table => new
                {
                    Id = table
                        .Column<int>(type: "integer", nullable: false)
                        .Annotation(
                            "Npgsql:ValueGenerationStrategy",
                            NpgsqlValueGenerationStrategy.IdentityByDefaultColumn
                        ),
                    UserId = table.Column<string>(type: "text", nullable: false),
                    ClaimType = table.Column<string>(type: "text", nullable: true),
                    ClaimValue = table.Column<string>(type: "text", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetUserClaims_Members_UserId",
                        column: x => x.UserId,
                        principalSchema: "class",
                        principalTable: "Members",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUserLogins",
                schema: "class",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    ProviderKey = table.Column<string>(type: "text", nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "text", nullable: true),
                    UserId = table.Column<string>(type: "text", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AspNetUserLogins_Members_UserId",
                        column: x => x.UserId,
                        principalSchema: "class",
                        principalTable: "Members",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUserTokens",
                schema: "class",
                columns: table => new
                {
                    UserId = table.Column<string>(type: "text", nullable: false),
                    LoginProvider = table.Column<string>(type: "text", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false),
                    Value = table.Column<string>(type: "text", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey(
                        "PK_AspNetUserTokens",
                        x => new
                        {
                            x.UserId,
                            x.LoginProvider,
                            x.Name,
                        }
                    );
                    table.ForeignKey(
                        name: "FK_AspNetUserTokens_Members_UserId",
                        column: x => x.UserId,
                        principalSchema: "class",
                        principalTable: "Members",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserClaims_UserId",
                schema: "class",
                table: "AspNetUserClaims",
                column: "UserId"
            );

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserLogins_UserId",
                schema: "class",
                table: "AspNetUserLogins",
                column: "UserId"
            );

            migrationBuilder.CreateIndex(
                name: "IX_Invitations_Digest",
                schema: "class",
                table: "Invitations",
                column: "Digest",
                unique: true
            );

            migrationBuilder.CreateIndex(
                name: "IX_Lessons_Source",
                schema: "class",
                table: "Lessons",
                column: "Source",
                unique: true
            );

            migrationBuilder.CreateIndex(
                name: "EmailIndex",
                schema: "class",
                table: "Members",
                column: "NormalizedEmail"
            );

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                schema: "class",
                table: "Members",
                column: "NormalizedUserName",
                unique: true
            );

            migrationBuilder.CreateIndex(
                name: "IX_Practice_Lesson",
                schema: "class",
                table: "Practice",
                column: "Lesson"
            );

            migrationBuilder.CreateIndex(name: "IX_Takes_Lesson", schema: "class", table: "Takes", column: "Lesson");

            migrationBuilder.CreateIndex(name: "IX_Takes_Pupil", schema: "class", table: "Takes", column: "Pupil");

            migrationBuilder.CreateIndex(
                name: "IX_Takes_Take",
                schema: "class",
                table: "Takes",
                column: "Take",
                unique: true
            );
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(name: "AspNetUserClaims", schema: "class");

            migrationBuilder.DropTable(name: "AspNetUserLogins", schema: "class");

            migrationBuilder.DropTable(name: "AspNetUserTokens", schema: "class");

            migrationBuilder.DropTable(name: "Copies", schema: "class");

            migrationBuilder.DropTable(name: "DataProtectionKeys", schema: "class");

            migrationBuilder.DropTable(name: "Documents", schema: "class");

            migrationBuilder.DropTable(name: "Invitations", schema: "class");

            migrationBuilder.DropTable(name: "Lessons", schema: "class");

            migrationBuilder.DropTable(name: "Practice", schema: "class");

            migrationBuilder.DropTable(name: "Takes", schema: "class");

            migrationBuilder.DropTable(name: "Members", schema: "class");
        }
    }
}

CREATE TABLE "project_builds" (
	"project_id" uuid NOT NULL,
	"revision" integer NOT NULL,
	"built_at" timestamp (3) with time zone NOT NULL,
	"taken" json NOT NULL,
	"returned" json NOT NULL,
	CONSTRAINT "project_builds_pkey" PRIMARY KEY("project_id","revision"),
	CONSTRAINT "project_builds_stock_is_object" CHECK (json_typeof("project_builds"."taken") = 'object' and json_typeof("project_builds"."returned") = 'object')
);
--> statement-breakpoint
CREATE TABLE "shed" (
	"id" integer PRIMARY KEY NOT NULL,
	"revision" integer NOT NULL,
	"stock" json NOT NULL,
	"updated_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "shed_is_one" CHECK ("shed"."id" = 1),
	CONSTRAINT "shed_stock_is_object" CHECK (json_typeof("shed"."stock") = 'object'),
	CONSTRAINT "shed_revision_from_one" CHECK ("shed"."revision" >= 1)
);
--> statement-breakpoint
CREATE TABLE "shed_reservations" (
	"project_id" uuid NOT NULL,
	"revision" integer NOT NULL,
	"stock" json NOT NULL,
	CONSTRAINT "shed_reservations_pkey" PRIMARY KEY("project_id","revision"),
	CONSTRAINT "shed_reservations_stock_is_object" CHECK (json_typeof("shed_reservations"."stock") = 'object')
);
--> statement-breakpoint
ALTER TABLE "project_builds" ADD CONSTRAINT "project_builds_of_a_revision" FOREIGN KEY ("project_id","revision") REFERENCES "public"."project_revisions"("project_id","revision") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
ALTER TABLE "shed_reservations" ADD CONSTRAINT "shed_reservations_of_a_revision" FOREIGN KEY ("project_id","revision") REFERENCES "public"."project_revisions"("project_id","revision") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
INSERT INTO "shed" ("id", "revision", "stock", "updated_at") VALUES (1, 1, '{"sticks":[],"joiners":[],"ties":0,"fasteners":0}', now());

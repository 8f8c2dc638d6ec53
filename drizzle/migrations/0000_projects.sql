CREATE TABLE "project_revisions" (
	"project_id" uuid NOT NULL,
	"revision" integer NOT NULL,
	"name" text NOT NULL,
	"notes" text NOT NULL,
	"plan" json NOT NULL,
	"created_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "project_revisions_pkey" PRIMARY KEY("project_id","revision"),
	CONSTRAINT "project_revisions_name_not_empty" CHECK ("project_revisions"."name" <> ''),
	CONSTRAINT "project_revisions_plan_is_object" CHECK (json_typeof("project_revisions"."plan") = 'object'),
	CONSTRAINT "project_revisions_revision_from_one" CHECK ("project_revisions"."revision" >= 1)
);
--> statement-breakpoint
CREATE TABLE "projects" (
	"id" uuid PRIMARY KEY NOT NULL,
	"name" text NOT NULL,
	"notes" text NOT NULL,
	"plan" json NOT NULL,
	"revision" integer NOT NULL,
	"created_at" timestamp (3) with time zone NOT NULL,
	"updated_at" timestamp (3) with time zone NOT NULL,
	CONSTRAINT "projects_name_not_empty" CHECK ("projects"."name" <> ''),
	CONSTRAINT "projects_plan_is_object" CHECK (json_typeof("projects"."plan") = 'object'),
	CONSTRAINT "projects_revision_from_one" CHECK ("projects"."revision" >= 1),
	CONSTRAINT "projects_updated_after_created" CHECK ("projects"."updated_at" >= "projects"."created_at")
);
--> statement-breakpoint
ALTER TABLE "project_revisions" ADD CONSTRAINT "project_revisions_project_id_projects_id_fk" FOREIGN KEY ("project_id") REFERENCES "public"."projects"("id") ON DELETE cascade ON UPDATE no action;
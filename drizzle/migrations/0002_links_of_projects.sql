CREATE TABLE "project_links" (
	"id" uuid PRIMARY KEY NOT NULL,
	"project_id" uuid NOT NULL,
	"label" text NOT NULL,
	"token_hash" text NOT NULL,
	"created_at" timestamp (3) with time zone NOT NULL,
	"last_used_at" timestamp (3) with time zone,
	CONSTRAINT "project_links_token_hash" UNIQUE("token_hash"),
	CONSTRAINT "project_links_label_not_empty" CHECK ("project_links"."label" <> '')
);
--> statement-breakpoint
ALTER TABLE "project_links" ADD CONSTRAINT "project_links_project_id_projects_id_fk" FOREIGN KEY ("project_id") REFERENCES "public"."projects"("id") ON DELETE cascade ON UPDATE no action;--> statement-breakpoint
CREATE INDEX "project_links_of_a_project" ON "project_links" USING btree ("project_id","id");
CREATE TABLE "project_purchases" (
	"project_id" uuid NOT NULL,
	"item" text NOT NULL,
	"quantity" double precision NOT NULL,
	CONSTRAINT "project_purchases_pkey" PRIMARY KEY("project_id","item"),
	CONSTRAINT "project_purchases_something" CHECK ("project_purchases"."quantity" > 0)
);
--> statement-breakpoint
ALTER TABLE "project_purchases" ADD CONSTRAINT "project_purchases_project_id_projects_id_fk" FOREIGN KEY ("project_id") REFERENCES "public"."projects"("id") ON DELETE cascade ON UPDATE no action;
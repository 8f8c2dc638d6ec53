CREATE TABLE "project_finished_cards" (
	"project_id" uuid NOT NULL,
	"revision" integer NOT NULL,
	"card" text NOT NULL,
	CONSTRAINT "project_finished_cards_pkey" PRIMARY KEY("project_id","revision","card"),
	CONSTRAINT "project_finished_cards_card_not_empty" CHECK ("project_finished_cards"."card" <> '')
);
--> statement-breakpoint
ALTER TABLE "project_finished_cards" ADD CONSTRAINT "project_finished_cards_of_a_revision" FOREIGN KEY ("project_id","revision") REFERENCES "public"."project_revisions"("project_id","revision") ON DELETE cascade ON UPDATE no action;
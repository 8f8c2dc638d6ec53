CREATE TABLE "creation_keys" (
	"key" text PRIMARY KEY NOT NULL,
	"body_hash" text NOT NULL,
	"claim" uuid NOT NULL,
	"claimed_at" timestamp (3) with time zone NOT NULL,
	"project_id" uuid,
	CONSTRAINT "creation_keys_key_not_empty" CHECK ("creation_keys"."key" <> '')
);
--> statement-breakpoint
CREATE INDEX "creation_keys_claimed_at" ON "creation_keys" USING btree ("claimed_at");
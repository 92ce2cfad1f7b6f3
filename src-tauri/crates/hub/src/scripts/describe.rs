//! The description of the doors for scripts, in OpenAPI 3.1; the schemas are those of the very types that are told.

use axum::Json;
use provenohm_api::Failure;
use provenohm_api::views::{OverviewJob, RecallProgress, TesterDue, UnprovedView};
use schemars::generate::{SchemaGenerator, SchemaSettings};
use schemars::{JsonSchema, Schema};
use serde_json::{Value, json};

#[derive(JsonSchema)]
#[expect(dead_code, reason = "only described: the lists are told as the overview has them")]
struct Jobs {
    /// Newest first.
    jobs: Vec<OverviewJob>,
}

#[derive(JsonSchema)]
#[expect(dead_code, reason = "only described: the lists are told as the overview has them")]
struct Testers {
    /// Those that are due first.
    testers: Vec<TesterDue>,
}

#[derive(JsonSchema)]
#[expect(dead_code, reason = "only described: the lists are told as the overview has them")]
struct Recalls {
    /// Those with readings that nobody has resolved first.
    recalls: Vec<RecallProgress>,
}

#[derive(JsonSchema)]
#[expect(dead_code, reason = "only described: it is told as the import has it")]
struct Added {
    /// The new job.
    job: uuid::Uuid,
    /// What was done, in a sentence.
    words: String,
}

pub(crate) async fn description() -> Json<Value> {
    Json(described())
}

pub(super) fn described() -> Value {
    let settings = SchemaSettings::draft2020_12().with(|settings| {
        settings.definitions_path = "/components/schemas".into();
        settings.meta_schema = None;
    });
    let mut schemas = settings.into_generator();
    let paths = json!({
        "/api/1/jobs": {
            "get": door("lists", "Jobs, with what each lacks", &[], &json_of::<Jobs>(&mut schemas)),
            "post": added(&mut schemas),
        },
        "/api/1/testers": {
            "get": door("lists", "Testers, by when they are due", &[], &json_of::<Testers>(&mut schemas)),
        },
        "/api/1/recalls": {
            "get": door("lists", "How far recalls are", &[], &json_of::<Recalls>(&mut schemas)),
        },
        "/api/1/unproved": {
            "get": door("lists", "Readings whose tester was not proved", &[], &json_of::<UnprovedView>(&mut schemas)),
        },
        "/api/1/jobs/{job}/unproved": {
            "get": door("lists", "The same of one job", &[of_job()], &json_of::<UnprovedView>(&mut schemas)),
        },
        "/api/1/jobs/{job}": {
            "get": door("papers", "A job as a job file", &[of_job()], &json!({ "application/json": {} })),
        },
        "/api/1/jobs/{job}/schedule/{file}": {
            "get": door(
                "papers",
                "A schedule of results as it is now; the header X-Provenohm-Parts says in how many files",
                &[of_job(), of_file()],
                &json!({ "application/pdf": {}, "text/csv": {},
                    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet": {} }),
            ),
        },
    });
    let failure = schemas.subschema_for::<Failure>();
    let mut components = Value::Object(schemas.take_definitions(true));
    components["Refused"] = failure.to_value();
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Provenohm, the office's hub",
            "version": "1",
            "description": "For scripts. A token opens the doors of its own scope, as `Authorization: Bearer …`. What is told of \
                            readings helps to find work that is left; it never says that a circuit is safe.",
            "license": { "name": "MIT OR Apache-2.0" },
        },
        "paths": paths,
        "components": {
            "schemas": components,
            "securitySchemes": { "token": { "type": "http", "scheme": "bearer" } },
        },
    })
}

fn json_of<T: JsonSchema>(schemas: &mut SchemaGenerator) -> Value {
    let schema: Schema = schemas.subschema_for::<T>();
    json!({ "application/json": { "schema": schema } })
}

/// A door that is asked, and what it answers.
fn door(scope: &str, about: &str, parameters: &[Value], content: &Value) -> Value {
    let refused = |about: &str| {
        let schema = json!({ "$ref": "#/components/schemas/Refused" });
        json!({ "description": about, "content": { "application/json": { "schema": schema } } })
    };
    json!({
        "summary": about,
        "security": [{ "token": [scope] }],
        "parameters": parameters,
        "responses": {
            "200": { "description": about, "content": content },
            "410": refused("The hub was moved"),
            "400": refused("What is asked cannot be read"),
            "401": refused("No token opens this door"),
            "404": refused("It is not there"),
            "422": refused("Refused, and why"),
        },
    })
}

fn added(schemas: &mut SchemaGenerator) -> Value {
    let content = json_of::<Added>(schemas);
    let mut door = door("add_jobs", "A new job from a job file", &[], &content);
    door["responses"]["201"] = door["responses"]["200"].take();
    if let Some(responses) = door["responses"].as_object_mut() {
        responses.remove("200");
    }
    door["responses"]["413"] = door["responses"]["422"].clone();
    door["responses"]["413"]["description"] = json!("Too large");
    door["requestBody"] = json!({ "required": true, "content": { "application/json": {} } });
    door
}

fn of_job() -> Value {
    let schema = json!({ "type": "string", "format": "uuid" });
    json!({ "name": "job", "in": "path", "required": true, "schema": schema, "description": "Which job" })
}

fn of_file() -> Value {
    let schema = json!({ "type": "string", "pattern": "^[1-9][0-9]{0,4}\\.(pdf|xlsx|csv)$" });
    let about = "Which file, from 1, and of which kind: `1.pdf`";
    json!({ "name": "file", "in": "path", "required": true, "schema": schema, "description": about })
}

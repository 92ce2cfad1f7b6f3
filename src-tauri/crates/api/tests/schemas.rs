//! The schemas are those of the types, and every worked example keeps to its own.
#![allow(clippy::unwrap_used, clippy::panic)]

#[path = "../examples/worked/mod.rs"]
mod worked;

#[test]
fn schemas_and_examples_are_those_of_the_types() {
    for (name, text) in worked::files().unwrap() {
        let kept = std::fs::read_to_string(worked::folder().join(&name)).unwrap_or_default();
        assert!(kept == text, "{name} differs: run `cargo run -p provenohm-api --example schemas`");
    }
}

#[test]
fn every_example_keeps_to_its_schema() {
    let files = worked::files().unwrap();
    let read = |name: &str| -> serde_json::Value {
        let (_, text) = files.iter().find(|(file, _)| file == name).unwrap();
        serde_json::from_str(text).unwrap()
    };
    for (name, _) in files.iter().filter(|(name, _)| name.ends_with(".schema.json")) {
        let schema = read(name);
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema", "{name}");
        let validator = jsonschema::draft202012::new(&schema).unwrap();
        let example = read(&name.replace(".schema.", ".example."));
        let faults: Vec<String> = validator.iter_errors(&example).map(|fault| fault.to_string()).collect();
        assert!(faults.is_empty(), "{name}: {faults:?}");
    }
}

#[test]
fn a_job_file_reads_back_as_it_was_written() {
    let files = worked::files().unwrap();
    let (_, text) = files.iter().find(|(name, _)| name == "job.example.json").unwrap();
    let file = provenohm_exchange::job_file::JobFile::read(text).unwrap();
    assert_eq!(file.write().unwrap(), *text);
}

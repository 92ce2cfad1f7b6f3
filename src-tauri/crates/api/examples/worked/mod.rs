//! The schemas of the files this crate answers for, each with a worked example, invented.

mod verification;

use chrono::{DateTime, Duration, FixedOffset};
use provenohm_api::headless::{
    self, BenchTold, DischargeTold, ExplainAsked, Explained, JobJudged, LimitAsked, LimitTold, OwnTold, ParallelTold,
    SetAsked, SetTold, VerificationFile,
};
use provenohm_api::views::RecallView;
use provenohm_api::{Api, Host};
use provenohm_assess::circuit::{Current, Loads, Stage};
use provenohm_assess::limits::{LimitSet, MeasureName, SHIPPED_FILES};
use provenohm_assess::policy::ValuePolicy;
use provenohm_assess::quantity::{Accuracy, Farads, Ohms, Percent, Shown, Volts};
use provenohm_exchange::job_file::JobFile;
use provenohm_papers::tester_report::TesterReport;
use schemars::{JsonSchema, schema_for};
use serde_json::{Value, json};
use std::error::Error;
use std::path::PathBuf;

/// Why a file could not be made.
pub(crate) type Fault = Box<dyn Error>;

/// Where the files are kept.
pub(crate) fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../schemas")
}

/// Every file with its text.
pub(crate) fn files() -> Result<Vec<(String, String)>, Fault> {
    let (job, recall) = job()?;
    let judgement = headless::judge(&job, None)?;
    let sets = headless::sets()?;
    let mut files = Vec::new();
    pair::<JobFile>(&mut files, "job", job)?;
    pair::<RecallView>(&mut files, "recall", text(&recall)?)?;
    pair::<JobJudged>(&mut files, "judgement", text(&judgement)?)?;
    pair::<Explained>(&mut files, "explain", text(&headless::explain(&reading()?)?)?)?;
    pair::<LimitTold>(&mut files, "limit", text(&headless::limit(&circuit())?)?)?;
    pair::<Vec<SetTold>>(&mut files, "sets", text(&sets)?)?;
    let shown = |text: &str| Shown::parse(text);
    let together = headless::parallel(&[shown("10 MΩ")?, shown("20 MΩ")?, shown("30 MΩ")?], Some(Percent(3.into())))?;
    pair::<ParallelTold>(&mut files, "parallel", text(&together)?)?;
    let own = headless::own(shown("1.50 MΩ")?, shown("1.55 MΩ")?, Percent(3.into()))?;
    pair::<OwnTold>(&mut files, "own-resistance", text(&own)?)?;
    let cable = (Ohms::parse("750 kΩ")?, Farads::parse("0.3 µF")?);
    let discharge = headless::discharge(cable, (Volts(1000.into()), Volts(25.into())))?;
    pair::<DischargeTold>(&mut files, "discharge", text(&discharge)?)?;
    let verification = text(&verification::file()?)?;
    pair::<BenchTold>(&mut files, "bench", text(&headless::bench(&verification)?)?)?;
    let report = headless::tester_report_of(&verification)?;
    pair::<TesterReport>(&mut files, "tester-report", String::from_utf8(report.json()?)?)?;
    pair::<VerificationFile>(&mut files, "verification", verification)?;
    let set = SHIPPED_FILES.first().ok_or("no set")?;
    pair::<LimitSet>(&mut files, "limit-set", String::from_utf8(set.to_vec())?)?;
    Ok(files)
}

fn pair<T: JsonSchema>(files: &mut Vec<(String, String)>, name: &str, example: String) -> Result<(), Fault> {
    // Sorted, so that the order does not hang on a feature that some other crate of the build asks for.
    let mut schema = serde_json::to_value(schema_for!(T))?;
    schema.sort_all_objects();
    files.push((format!("{name}.schema.json"), text(&schema)?));
    files.push((format!("{name}.example.json"), example));
    Ok(())
}

fn text<T: serde::Serialize>(value: &T) -> Result<String, Fault> {
    Ok(serde_json::to_string_pretty(value)? + "\n")
}

fn circuit() -> LimitAsked {
    LimitAsked {
        stage: Stage::Before,
        set: SetAsked::Shipped("iec-60364-6-2016".to_owned()),
        nominal_v: Volts(230.into()),
        measure: MeasureName::None,
        current: Current::Ac,
        to_earth_v: None,
        supply_v: None,
        loads: Loads::Out,
        item: None,
        conductors: None,
    }
}

fn reading() -> Result<ExplainAsked, Fault> {
    Ok(ExplainAsked {
        pair: None,
        shown: Shown::parse("1.05 MΩ")?,
        limit: circuit(),
        accuracy: Some(Accuracy::parse("3 % + 2")?),
        resolution: Some(Ohms::parse("0.01 MΩ")?),
        policy: ValuePolicy::Guarded,
        taken_v: None,
        reduced: None,
    })
}

/// A host whose time and randomness repeat, so that the example is the same every time.
fn host() -> Result<Host, Fault> {
    let mut now: DateTime<FixedOffset> = "2026-03-02T09:00:00+01:00".parse()?;
    let mut count = 1u64;
    let clock = move || {
        now += Duration::seconds(30);
        now
    };
    let random = move |bytes: &mut [u8]| {
        for byte in bytes {
            count = count.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            *byte = u8::try_from(count >> 56).unwrap_or(0);
        }
        Ok(())
    };
    Ok(Host::new(clock, random))
}

/// A job of one circuit: one pair over-range, one below its limit and replaced after a repair, one not tested;
/// and a quick check that puts one reading in doubt. And the recall of that tester.
fn job() -> Result<(String, RecallView), Fault> {
    let api = Api::in_memory(host()?, &std::env::temp_dir())?;
    let ask = |operation: &str, input: Value| api.call(operation, input);
    let job = ask("start_job", json!({ "name": "Invented example", "person": "Invented recorder" }))?["id"].clone();
    let board = ask("add_board", json!({ "job": job, "name": "DB-1" }))?["boards"][0]["id"].clone();
    let form = json!({
        "reference": "1", "description": "Sockets", "nominal": "230", "measure": "none", "conductors": "single_phase",
    });
    ask("save_circuit", json!({ "board": board, "form": form }))?;
    let ranges = json!([
        { "from": "0.05 MΩ", "to": "19.99 MΩ", "resolution": "0.01 MΩ", "percent": "3", "digits": "2" },
        { "from": "20 MΩ", "to": "999 MΩ", "resolution": "1 MΩ", "percent": "3", "digits": "2" },
    ]);
    let card = json!({ "voltages": [{ "volts": "500", "over_range": "999 MΩ", "ranges": ranges }], "conforms": true });
    let identity = json!({ "name": "Tester A", "serial": "1001", "model": "Invented model" });
    let tester = ask("save_tester", json!({ "identity": identity, "card": card }))?["id"].clone();
    let form = json!({
        "date": "12 Jan 2026", "valid_until": "12 Jan 2027", "kind": "calibration", "by": "an invented laboratory",
        "certificate": "INV-1001",
        "findings": [{
            "volts": "500", "as_left": "good", "conforms": "yes", "edition": "IEC 61557-2:2019",
            "holds": [{ "from": "0.1 MΩ", "to": "999 MΩ" }],
        }],
    });
    ask("record_verification", json!({ "tester": tester, "form": form }))?;
    ask("choose_tester", json!({ "board": board, "tester": tester }))?;
    ask("set_volts", json!({ "board": board, "volts": 500 }))?;
    ask("record_lead_check", json!({ "board": board, "leads": "shorted", "indication": "near_zero" }))?;
    let slot = || -> Result<Value, Fault> { Ok(ask("run", json!({ "board": board }))?["slot"].clone()) };
    ask("save_reading", json!({ "board": board, "slot": slot()?, "indication": "over_range" }))?;
    let low = json!({ "typed": { "text": "0.40", "comparator": "exact", "unit": "m" } });
    let low = ask("save_reading", json!({ "board": board, "slot": slot()?, "indication": low }))?;
    let repaired = json!({
        "job": job, "reading": low["saved"]["reading"], "text": "487", "comparator": "exact", "unit": "m",
        "why": "repaired",
    });
    ask("replace_reading", repaired)?;
    ask("mark_not_tested", json!({ "board": board, "slot": slot()?, "reason": "no_access" }))?;
    // Its check box is shown wrong at 0.25 MΩ: the reading before the repair is in doubt, and nothing more has to be done.
    let point = |known: &str, shown: &str| json!({ "known": known, "uncertainty_percent": "1", "shown": shown });
    let points =
        [point("0.25 MΩ", "0.31 MΩ"), point("1 MΩ", "1.01 MΩ"), point("100 MΩ", "101 MΩ"), point("500 MΩ", "")];
    let check = json!({ "volts": "500", "points": points, "open": "> 999 MΩ", "shorted": "0.01 MΩ" });
    ask("record_quick_check", json!({ "tester": tester, "form": check }))?;
    let reason = "repaired and tested again";
    let resolved = json!({ "tester": tester, "job": job, "reading": low["saved"]["reading"], "reason": reason });
    ask("resolve_recall", resolved)?;
    let recall = serde_json::from_value(ask("recall", json!({ "tester": tester }))?)?;
    Ok((api.job_file(job.as_str().unwrap_or_default())?, recall))
}

//! What each operation does. Names and types stand in `operations`.

pub(crate) mod bench;
pub(crate) mod bundle;
pub(crate) mod cautions;
pub(crate) mod checks;
pub(crate) mod circuits;
pub(crate) mod copy;
pub(crate) mod correct;
pub(crate) mod files;
pub(crate) mod interval;
pub(crate) mod job_file;
pub(crate) mod jobs;
pub(crate) mod look;
pub(crate) mod origin;
pub(crate) mod recall;
pub(crate) mod references;
pub(crate) mod rules;
pub(crate) mod run;
pub(crate) mod schedule;
pub(crate) mod start;
pub(crate) mod table;
pub(crate) mod tester_report;
pub(crate) mod testers;
pub(crate) mod trend;
pub(crate) mod undo;
pub(crate) mod verifications;

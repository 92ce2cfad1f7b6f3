//! A recall in lines for a person.

use super::words;
use crate::views::{RecallBoard, RecallView};

/// The sum, what found the tester failed, and a line a reading, job by job with who to call.
#[must_use]
pub fn recall_lines(told: &RecallView) -> Vec<String> {
    let words = words();
    let mut lines = vec![told.words.clone()];
    lines.extend(told.candidates.iter().map(|one| format!("  {}  {}  {}", one.id, one.name, one.state.words)));
    for cause in &told.causes {
        lines.push(cause.title.clone());
        lines.extend(cause.lines.iter().map(|line| format!("  {line}")));
    }
    for job in &told.jobs {
        lines.push(
            [job.name.as_str(), job.place.as_str()]
                .into_iter()
                .filter(|it| !it.is_empty())
                .collect::<Vec<_>>()
                .join(" · "),
        );
        if job.invented {
            lines.push(format!("  {}", words.text("answer-demo")));
        }
        lines.extend(job.signed.iter().map(|signed| format!("  {signed}")));
        lines.extend(job.people.iter().map(|person| format!("  {person}")));
        lines.extend(job.boards.iter().flat_map(board_lines));
    }
    lines
}

fn board_lines(board: &RecallBoard) -> Vec<String> {
    let mut lines = vec![format!("  {}", board.name)];
    for one in &board.lines {
        let remark = one.remark.iter().map(|remark| format!(" ({remark})")).collect::<String>();
        let resolved = one.resolved.iter().map(|it| format!("; {it}")).collect::<String>();
        lines.push(format!("    {}  {}  {}  {}{remark}{resolved}", one.circuit_name, one.pair, one.shown, one.words));
    }
    lines
}

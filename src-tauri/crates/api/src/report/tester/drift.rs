//! Drift over the tester's verifications, as the screens show it.

use super::plot::on_paper;
use crate::views::DriftView;
use provenohm_papers::tester_report::{DriftLine, DriftTable};

/// A table and a picture for each resistance that was tested in more than one verification.
pub(crate) fn drift_tables(view: DriftView) -> Vec<DriftTable> {
    let several = view.plots.into_iter().filter(|plot| plot.rows.len() > 1);
    several
        .map(|plot| DriftTable {
            title: plot.title,
            plot: on_paper(plot.plot),
            said: plot.said,
            lines: plot
                .rows
                .into_iter()
                .map(|row| DriftLine {
                    when: row.when,
                    error: row.error,
                    expanded: row.expanded,
                    adjusted: row.adjusted,
                })
                .collect(),
        })
        .collect()
}

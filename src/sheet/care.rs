//! The line of care at the end of a sheet.

use crate::picture::page::{Face, Figure, Flow, points};

const CARE: &str = "Warm up, rest, and stop when it hurts; ask a teacher or a clinician about pain that \
                    stays.";

/// Puts it below what is there.
pub(super) fn put(flow: &mut Flow) {
    flow.put(Figure::line(CARE, Face::Plain, points(8.0)), 5.0);
}

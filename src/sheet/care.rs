//! The line of care at the end of a sheet.

use crate::picture::page::Flow;

const CARE: &str = "Warm up, rest, and stop when it hurts; ask a teacher or a clinician about pain that \
                    stays.";

/// Puts it at the foot of the last page.
pub(super) fn put(flow: &mut Flow) {
    flow.end_with(CARE);
}

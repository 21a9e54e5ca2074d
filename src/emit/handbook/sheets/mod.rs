//! Prints the sheets of every build: the engine sheet, and one sheet a procedure that fits.

pub(super) mod markdown;

use super::HandbookError;
use super::press::Press;
use super::view::{EngineView, Links, ProcedureView, fitting, link};

/// Prints the sheets of every build.
pub(super) fn print(press: &mut Press<'_>) -> Result<(), HandbookError> {
    let model = press.model;
    for build in model.builds.values() {
        let hash = press.build_hashes.get(&build.id).map(String::as_str).unwrap_or_default();
        let procedures = fitting(model, build);
        let links = procedures.iter().map(|procedure| link(build, procedure)).collect();
        press.print(&Links::engine(&build.id), "engine.html", &EngineView::of(model, build, hash, links))?;
        for procedure in procedures {
            let body = markdown::body(press, build, procedure)?;
            let view = ProcedureView::of(model, build, procedure, hash, body);
            press.print(&Links::procedure(&build.id, &procedure.id), "procedure.html", &view)?;
        }
    }
    Ok(())
}

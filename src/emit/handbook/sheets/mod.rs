//! Prints the sheets of every build: the engine sheet, one sheet a procedure and one a complaint that
//! fits; then those that stand behind them.

pub(super) mod markdown;

use super::HandbookError;
use super::press::Press;
use super::view::{
    CodesView, ComplaintView, CoverageView, EngineView, Links, ProcedureView, SourceView, fitting,
    fitting_complaints, link,
};

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
        for complaint in fitting_complaints(model, build) {
            let view = ComplaintView::of(model, build, complaint, hash);
            press.print(&Links::complaint(&build.id, &complaint.id), "complaint.html", &view)?;
        }
    }
    behind(press)
}

/// Prints the sheets that stand behind those of the builds: sources, codes, coverage.
fn behind(press: &mut Press<'_>) -> Result<(), HandbookError> {
    let model = press.model;
    for source in model.sources.values() {
        let view = SourceView::of(model, &press.places, source);
        press.print(&Links::source_sheet(&source.id), "source.html", &view)?;
    }
    for set in model.codes.values() {
        press.print(&Links::codes(&set.id), "code-set.html", &CodesView::of(model, set))?;
    }
    for engine in model.engines.values() {
        let view = CoverageView::of(model, &press.places, engine);
        press.print(&Links::coverage(&engine.id), "engine-coverage.html", &view)?;
    }
    Ok(())
}

//! Prints the sheets of every build: the engine sheet, one sheet a procedure and one a complaint that
//! fits; then those that stand behind them.

pub(super) mod markdown;

use std::num::NonZero;
use std::thread;

use super::HandbookError;
use super::press::{Page, Press};
use super::view::{
    CardView, CodesView, ComplaintView, CoverageView, DrawingsView, DrawnGroup, EngineView, Links, Places,
    ProcedureView, SourceView, fitting, fitting_complaints, link,
};
use crate::model::Build;

/// More threads than this gain nothing that the disk does not take back.
const MOST_THREADS: usize = 8;

/// Prints the sheets of every build, on as many threads as the machine has.
pub(super) fn print(press: &mut Press<'_>) -> Result<(), HandbookError> {
    let builds: Vec<&Build> = press.model.builds.values().collect();
    let threads = thread::available_parallelism().map_or(1, NonZero::get).min(MOST_THREADS);
    let share = builds.len().div_ceil(threads).max(1);
    let shared: &Press<'_> = press;
    let parts: Vec<Result<Vec<Page>, HandbookError>> = thread::scope(|scope| {
        let workers: Vec<_> = builds.chunks(share).map(|part| scope.spawn(|| pages(shared, part))).collect();
        let joined = workers.into_iter().map(thread::ScopedJoinHandle::join);
        joined.map(|pages| pages.unwrap_or_else(|panic| std::panic::resume_unwind(panic))).collect()
    });
    for pages in parts {
        press.take(pages?)?;
    }
    let behind = behind(press)?;
    press.take(behind)
}

/// The sheets that stand behind those of the builds: sources, codes, coverage.
fn behind(press: &Press<'_>) -> Result<Vec<Page>, HandbookError> {
    let (model, atlas) = (press.model, &press.atlas);
    let places = Places::of(atlas);
    let mut pages = Vec::new();
    for source in model.sources.values() {
        let view = SourceView::of(model, &places, source);
        pages.push(press.page(&Links::source_sheet(&source.id), "source.html", &view)?);
    }
    for set in model.codes.values() {
        pages.push(press.page(&Links::codes(&set.id), "code-set.html", &CodesView::of(atlas, set))?);
    }
    for engine in model.engines.values() {
        let view = CoverageView::of(model, &places, engine);
        pages.push(press.page(&Links::coverage(&engine.id), "engine-coverage.html", &view)?);
    }
    Ok(pages)
}

fn pages<'a>(press: &Press<'a>, builds: &[&'a Build]) -> Result<Vec<Page>, HandbookError> {
    let (model, atlas) = (press.model, &press.atlas);
    let mut pages = Vec::new();
    for build in builds.iter().copied() {
        let hash = press.build_hashes.get(&build.id).map(String::as_str).unwrap_or_default();
        let procedures = fitting(model, build);
        let links = procedures.iter().map(|procedure| link(build, procedure)).collect();
        let mut view = EngineView::of(atlas, build, hash, links);
        let groups = view.take_drawings(&build.id);
        pages.push(view.limits_script(&build.id));
        pages.extend(view.sums_script(model, build));
        pages.push(press.page(&Links::engine(&build.id), "engine.html", &view)?);
        pages.push(press.page(&Links::card(&build.id), "card.html", &CardView::of(atlas, build, hash))?);
        let drawings = DrawingsView { block: &view.block, groups: &groups };
        pages.push(press.page(&Links::drawings(&build.id), "drawings.html", &drawings)?);
        pages.extend(groups.iter().flat_map(DrawnGroup::scripts));
        for procedure in procedures {
            let body = markdown::body(press, build, procedure)?;
            let view = ProcedureView::of(atlas, build, procedure, hash, body);
            pages.push(press.page(&Links::procedure(&build.id, &procedure.id), "procedure.html", &view)?);
        }
        for complaint in fitting_complaints(model, build) {
            let view = ComplaintView::of(atlas, build, complaint, hash);
            pages.push(press.page(&Links::complaint(&build.id, &complaint.id), "complaint.html", &view)?);
        }
    }
    Ok(pages)
}

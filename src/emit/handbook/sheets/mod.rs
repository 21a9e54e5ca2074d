//! Prints the sheets of every build: the engine sheet, and one sheet a procedure that fits.

pub(super) mod markdown;

use std::num::NonZero;
use std::thread;

use super::HandbookError;
use super::press::{Page, Press};
use super::view::{EngineView, Links, ProcedureView, fitting, link};
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
        press.take(pages?);
    }
    Ok(())
}

fn pages<'a>(press: &Press<'a>, builds: &[&'a Build]) -> Result<Vec<Page>, HandbookError> {
    let (model, atlas) = (press.model, &press.atlas);
    let mut pages = Vec::new();
    for build in builds.iter().copied() {
        let hash = press.build_hashes.get(&build.id).map(String::as_str).unwrap_or_default();
        let procedures = fitting(model, build);
        let links = procedures.iter().map(|procedure| link(build, procedure)).collect();
        let view = EngineView::of(atlas, build, hash, links);
        pages.push(press.page(&Links::engine(&build.id), "engine.html", &view)?);
        for procedure in procedures {
            let body = markdown::body(press, build, procedure)?;
            let view = ProcedureView::of(atlas, build, procedure, hash, body);
            pages.push(press.page(&Links::procedure(&build.id, &procedure.id), "procedure.html", &view)?);
        }
    }
    Ok(pages)
}

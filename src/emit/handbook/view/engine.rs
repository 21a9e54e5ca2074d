//! The engine sheet: lettered groups of rows, and the sheet of its drawings.

use std::collections::BTreeMap;

use serde::Serialize;

use super::atlas::Atlas;
use super::codes::{CodesLink, given_by};
use super::complaint::fitting_complaints;
use super::hazard::Hazards;
use super::links::Links;
use super::row::Row;
use super::scope;
use super::shims::{SHIM, ShimsView};
use super::sums_for::Given;
use super::text::count;
use super::title_block::TitleBlock;
use crate::emit::drawing::Drawing;
use crate::emit::handbook::assets::{quoted, short_hash};
use crate::model::{Build, BuildId, Form, Model, ServiceGroup, Source, Statement};

/// The engine sheet of a build.
#[derive(Debug, Serialize)]
pub struct EngineView {
    /// Title block.
    pub block: TitleBlock,
    /// Groups that have a row.
    pub groups: Vec<GroupView>,
    /// Procedures that fit: title, link, minutes.
    pub procedures: Vec<ProcedureLink>,
    /// Complaints that fit: title and link.
    pub complaints: Vec<(String, String)>,
    /// Sets of fault codes that the engine gives.
    pub codes: Vec<CodesLink>,
    /// The shim planner, if it has shims.
    pub shims: Option<ShimsView>,
    /// True where a drawing stands on the sheet that needs what drawings have in common.
    pub lined: bool,
    /// The script with what the rows are judged by, beside the sheet.
    pub limits: String,
    /// The script with what it gives the bench sums, but for the ending; empty where it gives nothing.
    pub sums: String,
    /// Its coverage sheet.
    pub coverage: String,
    /// How many values.
    pub values: String,
    /// How many manuals and bulletins they were read from.
    pub sources: String,
    /// Those manuals and bulletins, in full.
    pub read_from: Vec<ReadFrom>,
}

impl EngineView {
    /// Takes the drawings of limits and curves out of the rows, by group: a sheet is read before it is
    /// looked at, and a memory stick has no compression. What must be seen at once stays: which way the
    /// engine turns, and in which order bolts are tightened.
    pub fn take_drawings(&mut self, build: &BuildId) -> Vec<DrawnGroup> {
        let mut taken = Vec::new();
        for group in &mut self.groups {
            let blocks: Vec<Vec<Drawn>> = group.rows.chunks_mut(BLOCK).map(take_block).collect();
            if blocks.iter().any(|block| !block.is_empty()) {
                let mut drawn = DrawnGroup {
                    path: String::new(),
                    anchor: group.anchor.clone(),
                    letter: group.letter.clone(),
                    title: group.title.clone(),
                    blocks,
                };
                let name = format!("{}-{}", group.anchor.trim_start_matches("group-"), drawn.hash());
                group.drawings = Some(format!("drawings-{name}"));
                drawn.path = Links::drawings_script(build, &name);
                taken.push(drawn);
            }
        }
        let left = self.groups.iter().flat_map(|group| &group.rows).filter_map(|row| row.drawing.as_ref());
        self.lined = left
            .into_iter()
            .any(|drawing| drawing.as_str().contains("=\"#d-") || drawing.as_str().contains("url(#"));
        taken
    }
}

impl EngineView {
    /// The script with what the rows are judged by, by the anchor of the row, and its path. The rows print it;
    /// only the bench needs it in this form, and brings it along; the page of jobs finds in it what a record was
    /// judged by.
    pub fn limits_script(&mut self, build: &BuildId) -> (String, Vec<u8>) {
        let rows = self.groups.iter().flat_map(|group| &group.rows);
        let judged = rows.filter_map(|row| {
            let identity = [("spec", row.of.as_str()), ("where", &row.place), ("when", &row.when)];
            Some((row.anchor.as_str(), row.judged.as_ref()?.facts().into_iter().chain(identity).collect()))
        });
        let facts: BTreeMap<&str, BTreeMap<&str, &str>> = judged.collect();
        let script = format!("globalThis.baybookLimits = {};\n", serde_json::json!(facts)).into_bytes();
        self.limits = format!("limits-{}.js", short_hash([script.as_slice()]));
        (Links::beside(build, &self.limits), script)
    }
}

impl EngineView {
    /// The script with what the build gives the sheet of sums, and its path.
    pub fn sums_script(&mut self, model: &Model, build: &Build) -> Option<(String, Vec<u8>)> {
        let machines = self.block.machines.iter().map(|machine| machine.name.clone()).collect();
        let given = Given::of(model, build, &self.block.engine, machines)?;
        let script = format!("baybookGiven({});\n", serde_json::json!(given)).into_bytes();
        let name = format!("given-{}", short_hash([script.as_slice()]));
        self.sums = format!("{}/{name}", build.id);
        Some((Links::beside(&build.id, &format!("{name}.js")), script))
    }
}

/// So many rows have their drawings in one script; `site/drawn.js` counts alike.
const BLOCK: usize = 4;

/// Heights that the style sheet keeps room for; a drawing of another height stands on the sheet from the start.
const ROOMS: &[&str] =
    &["70", "85", "86", "101", "140", "160", "180", "200", "220", "230", "240", "260", "280", "300", "320"];

fn take_block(rows: &mut [Row]) -> Vec<Drawn> {
    let later = rows.iter_mut().filter(|row| row.turns.is_none());
    let drawn = later.filter_map(|row| {
        let drawing = row.drawing.take_if(|drawing| ROOMS.contains(&drawing.height()))?;
        row.room = Some(drawing.height().to_owned());
        Some(Drawn {
            drawing,
            anchor: row.anchor.clone(),
            title: row.title.clone(),
            scope: row.scope.clone(),
        })
    });
    drawn.collect()
}

/// The drawings of one service group.
#[derive(Debug, Serialize)]
pub struct DrawnGroup {
    /// Path of the scripts that hold them, but for the number and the ending.
    #[serde(skip)]
    pub path: String,
    /// Anchor of the group.
    pub anchor: String,
    /// Its letter.
    pub letter: String,
    /// Its title.
    pub title: String,
    /// The drawings of each block of rows, in the order of the sheet.
    pub blocks: Vec<Vec<Drawn>>,
}

/// The drawing of one row.
#[derive(Debug, Serialize)]
pub struct Drawn {
    /// Anchor of the row on the engine sheet.
    pub anchor: String,
    /// What the trade calls it.
    pub title: String,
    /// Place and condition in words.
    pub scope: Vec<String>,
    /// The drawing.
    pub drawing: Drawing,
}

impl DrawnGroup {
    /// The classic scripts that bring the drawings to their rows: they run from `file://`, where nothing
    /// can be fetched. One a block, by path.
    pub fn scripts(&self) -> impl Iterator<Item = (String, Vec<u8>)> {
        let some = self.blocks.iter().enumerate().filter(|(_, block)| !block.is_empty());
        some.map(|(at, block)| {
            let drawn =
                block.iter().map(|one| format!("{}:{}", quoted(&one.anchor), quoted(one.drawing.as_str())));
            let script = format!("baybookDrawings({{{}}});\n", drawn.collect::<Vec<_>>().join(",\n"));
            (format!("{}-{at}.js", self.path), script.into_bytes())
        })
    }

    /// What sets its scripts apart from those of another release, so that no sheet gets the drawings of another.
    fn hash(&self) -> String {
        short_hash(self.scripts().map(|(_, script)| script))
    }
}

/// The sheet that shows every drawing of a build, for readers without scripts and for paper.
#[derive(Debug, Serialize)]
pub struct DrawingsView<'a> {
    /// Title block.
    pub block: &'a TitleBlock,
    /// The drawings by group.
    pub groups: &'a [DrawnGroup],
}

/// A procedure of the build.
#[derive(Clone, Debug, Serialize)]
pub struct ProcedureLink {
    /// Title.
    pub title: String,
    /// Its sheet.
    pub href: String,
    /// Minutes it takes.
    pub minutes: Option<u32>,
}

/// A manual or bulletin that values of the sheet were read from.
#[derive(Clone, Debug, Serialize)]
pub struct ReadFrom {
    /// What the rows call it.
    pub name: String,
    /// Title, edition and date, where the name does not say them.
    pub full: String,
    /// Its sheet.
    pub href: String,
}

impl ReadFrom {
    fn of(source: &Source) -> Self {
        let title = source.short.as_ref().map(|_| source.title.clone());
        let edition = source.edition.as_ref().map(|edition| format!("edition {edition}"));
        let date = source.date.map(|date| date.to_string());
        Self {
            name: source.name().to_owned(),
            full: title.into_iter().chain(edition).chain(date).collect::<Vec<_>>().join(", "),
            href: Links::source_sheet(&source.id),
        }
    }
}

/// One service group.
#[derive(Debug, Serialize)]
pub struct GroupView {
    /// Its letter; `I` and `O` are left out, as on a drawing.
    pub letter: String,
    /// Title.
    pub title: String,
    /// Anchor.
    pub anchor: String,
    /// Hazards of its entries, each once, by signal word.
    pub panels: Vec<Hazards>,
    /// Rows.
    pub rows: Vec<Row>,
    /// The scripts that hold the drawings of the group, but for the number of the block of rows and the
    /// ending; none where nothing is left to them.
    pub drawings: Option<String>,
}

impl EngineView {
    /// The engine sheet of a build.
    pub fn of<'a>(atlas: &Atlas<'a>, build: &'a Build, hash: &str, procedures: Vec<ProcedureLink>) -> Self {
        let mut sources: Vec<_> =
            build.statements.iter().filter_map(|one| one.provenance.source.as_ref()).collect();
        sources.sort();
        sources.dedup();
        let complaints = fitting_complaints(atlas.model, build).into_iter();
        let groups = groups(atlas, build);
        let shim = groups.iter().flat_map(|group| &group.rows).find(|row| row.of == SHIM);
        let shims = ShimsView::of(atlas.model, build).map(|shims| shims.leave_to(shim));
        Self {
            block: TitleBlock::of(atlas, build, hash),
            groups,
            procedures,
            complaints: complaints
                .map(|one| (one.title.clone(), Links::complaint(&build.id, &one.id)))
                .collect(),
            codes: given_by(atlas.model, build),
            shims,
            lined: true,
            limits: String::new(),
            sums: String::new(),
            coverage: Links::coverage(&build.engine),
            values: count(build.statements.len(), "value", "values"),
            sources: count(sources.len(), "manual or bulletin", "manuals and bulletins"),
            read_from: sources
                .iter()
                .filter_map(|id| atlas.model.sources.get(*id))
                .map(ReadFrom::of)
                .collect(),
        }
    }
}

fn groups<'a>(atlas: &Atlas<'a>, build: &'a Build) -> Vec<GroupView> {
    let (model, named) = (atlas.model, atlas.rows(build).collect::<Vec<_>>());
    let lettered = model.groups.iter().zip(letters());
    let views = lettered.map(|(group, letter)| group_view(model, group, letter, &named));
    views.filter(|view| !view.rows.is_empty()).collect()
}

fn group_view(
    model: &Model,
    group: &ServiceGroup,
    letter: String,
    named: &[(&Statement, &str)],
) -> GroupView {
    let inside = named.iter().filter(|(one, _)| group.entries.contains(&one.identity.of));
    let mut last = None;
    let rows = inside.clone().filter_map(|(one, anchor)| {
        let entry = model.entries.get(&one.identity.of)?;
        // What the catalogue says of an entry stands once, at its first row.
        let first = last.replace(&entry.id) != Some(&entry.id);
        Some(Row::of(model, entry, one, (*anchor).to_owned(), first))
    });
    let hazards = inside.clone().filter(|(one, _)| !matches!(one.form, Form::Absent(_)));
    let hazards = hazards.filter_map(|(one, _)| model.entries.get(&one.identity.of));
    GroupView {
        letter,
        title: group.title.clone(),
        anchor: format!("group-{}", scope::entry(&group.id)),
        panels: Hazards::of(model, hazards.flat_map(|entry| &entry.hazards)),
        rows: rows.collect(),
        drawings: None,
    }
}

/// A, B, C …, Z, AA, AB …, without I and O, which read as numbers: the lettering of ISO 5457.
pub fn letters() -> impl Iterator<Item = String> {
    const USED: &str = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    let single = USED.chars().map(String::from);
    let double = USED.chars().flat_map(|a| USED.chars().map(move |b| format!("{a}{b}")));
    single.chain(double).chain((1_u32..).map(|number| format!("Z{number}")))
}

#[cfg(test)]
mod tests {
    use super::ROOMS;

    #[test]
    fn the_style_sheet_keeps_room_for_every_height_that_comes_late() {
        let style = include_str!("../../../../site/css/statement.css");
        for height in ROOMS {
            assert!(style.contains(&format!(".room-{height} {{ --room: {height}; }}")), "{height}");
        }
    }
}

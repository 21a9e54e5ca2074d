//! Procedures: what each needs, its text in typed parts, and the builds it fits.

use super::guides::fitting_rows;
use super::{Cell, Column, Holds, Reference, Table, places, printed_cells, printed_table, row, table};
use crate::bundle::{Block, Bundle, Part, Procedure};

/// Procedures.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    let mut filled = Procedures::new();
    // Of procedures first, as their parts lead from one to another.
    bundle.procedures.procedures.iter().for_each(|one| filled.procedure(one));
    let Procedures { heads, needs, hazards, uses, open, blocks, parts, narrow, angles, fits, builds } =
        filled;
    vec![heads, needs, hazards, uses, open, blocks, parts, narrow, angles, fits, builds]
}

struct Procedures {
    heads: Table,
    needs: Table,
    hazards: Table,
    uses: Table,
    open: Table,
    blocks: Table,
    parts: Table,
    narrow: Table,
    angles: Table,
    fits: Table,
    builds: Table,
}

impl Procedures {
    fn new() -> Self {
        Self {
            heads: table! { "procedure" "Procedures" key("id") refers[]
            Text id '!' "Id"; Text title '!' "What is done"; Integer minutes '?' "Minutes it takes"; Text state '!' "cold, hot or any";
            Integer steps '!' "Number of its steps"; Text proof '?' "What shows that the work holds";
            Text fits_cycle '?' "four-stroke or two-stroke engines only"; Text fits_fuel '?' "petrol or diesel engines only"; },
            needs: table! { "procedure_need" "What a procedure needs" key("procedure", "sort", "place") refers[("procedure" "procedure" "id") ("gauge" "gauge" "id")]
            Text procedure '!' "Procedure"; Text sort '!' "gauge or tool"; Integer place '!' "Place"; Text gauge '?' "Gauge";
            Text tool '?' "Tool or access, in words"; },
            hazards: table! { "procedure_hazard" "Cautions of procedures" key("procedure", "place") refers[("procedure" "procedure" "id") ("hazard" "hazard" "id")]
            Text procedure '!' "Procedure"; Integer place '!' "Place"; Text hazard '!' "Hazard"; },
            uses: table! { "procedure_entry" "Entries that a procedure uses" key("procedure", "place") refers[("procedure" "procedure" "id") ("entry" "entry" "id")]
            Text procedure '!' "Procedure"; Integer place '!' "Place"; Text entry '!' "Entry"; },
            open: table! { "left_open" "What stands open between two steps of a procedure" key("procedure", "place") refers[("procedure" "procedure" "id")]
            Text procedure '!' "Procedure"; Integer place '!' "Place"; Text what '!' "What stands open";
            Integer from_step '!' "Step that opens it"; Integer until_step '!' "Step that closes it"; },
            blocks: table! { "block" "Text of procedures, block by block" key("procedure", "place") refers[("procedure" "procedure" "id")]
            Text procedure '!' "Procedure"; Integer place '!' "Place"; Text sort '!' "step, item, heading, paragraph, note, lines or row";
            Integer step '?' "Step it is, or belongs to"; Integer depth '!' "How many lists it stands in"; },
            parts: table! { "part" "Parts of blocks: words, or a link" key("procedure", "block", "place") refers[("procedure" "procedure" "id") ("entry" "entry" "id") ("hazard" "hazard" "id") ("leads_to" "procedure" "id") ("complaint" "complaint" "id")]
            Text procedure '!' "Procedure"; Integer block '!' "Place of the block"; Integer place '!' "Place in the block";
            Text sort '!' "text, cell, spec, reading, hazard, turn, step, procedure, complaint or code"; Text text '!' "Words";
            Text style '?' "strong, emphasis or code"; Text entry '?' "Entry of a value, a reading or a turn"; Text hazard '?' "Hazard";
            Integer step '?' "Step it leads to"; Text leads_to '?' "Procedure it leads to"; Text complaint '?' "Complaint it leads to";
            Text code_set '?' "Set of codes it leads to"; Text code '?' "Code it leads to"; },
            narrow: table! { "part_word" "Words of place or state that narrow a value or reading" key("procedure", "block", "part", "name") refers[("procedure" "procedure" "id")]
            Text procedure '!' "Procedure"; Integer block '!' "Place of the block"; Integer part '!' "Place of the part"; Text name '!' "Axis or state";
            Text word '!' "Word"; },
            angles: printed_table(
                table! { "part_angle" "By how much to turn" key("procedure", "block", "part") refers[("procedure" "procedure" "id")]
                Text procedure '!' "Procedure"; Integer block '!' "Place of the block"; Integer part '!' "Place of the part"; },
            ),
            fits: table! { "procedure_fits" "What a build must have or be for a procedure to fit" key("procedure", "sort", "place") refers[("procedure" "procedure" "id")]
            Text procedure '!' "Procedure"; Text sort '!' "has (an entry) or engine"; Integer place '!' "Place"; Text id '!' "Entry or engine"; },
            builds: table! { "procedure_build" "Builds that a procedure fits" key("procedure", "build") refers[("procedure" "procedure" "id") ("build" "build" "id")]
            Text procedure '!' "Procedure"; Text build '!' "Build"; },
        }
    }

    fn procedure(&mut self, one: &Procedure) {
        let id = &one.id;
        self.heads.rows.push(row![
            id,
            &one.title,
            one.minutes,
            &one.state,
            one.steps,
            one.proof.as_ref(),
            one.fits.cycle.as_ref(),
            one.fits.fuel.as_ref(),
        ]);
        let gauges = places(&one.gauges).map(|(place, gauge)| row![id, "gauge", place, gauge, Cell::Null]);
        self.needs.rows.extend(gauges);
        let tools = places(&one.tools).map(|(place, tool)| row![id, "tool", place, Cell::Null, tool]);
        self.needs.rows.extend(tools);
        self.hazards.rows.extend(places(&one.hazards).map(|(place, hazard)| row![id, place, hazard]));
        self.uses.rows.extend(places(&one.uses).map(|(place, entry)| row![id, place, entry]));
        let open =
            places(&one.left_open).map(|(place, open)| row![id, place, &open.what, open.from, open.until]);
        self.open.rows.extend(open);
        places(&one.body).for_each(|(place, block)| self.block(id, place, block));
        self.fits.rows.extend(fitting_rows(id, &one.fits));
        self.builds.rows.extend(one.builds.iter().map(|build| row![id, build]));
    }

    fn block(&mut self, id: &str, at: usize, block: &Block) {
        self.blocks.rows.push(row![id, at, block.sort.word(), block.step, block.depth]);
        for (place, part) in places(&block.parts) {
            self.parts.rows.push(part_row(id, at, place, part));
            let words = part.narrow.iter().map(|(name, word)| row![id, at, place, name, word]);
            self.narrow.rows.extend(words);
            self.angles.rows.extend(part.angle.as_ref().map(|angle| {
                let mut row = row![id, at, place];
                row.extend(printed_cells(angle));
                row
            }));
        }
    }
}

fn part_row(id: &str, block: usize, place: usize, part: &Part) -> Vec<Cell> {
    row![
        id,
        block,
        place,
        part.sort.word(),
        &part.text,
        part.style.as_ref(),
        part.of.as_ref(),
        part.hazard.as_ref(),
        part.step,
        part.procedure.as_ref(),
        part.complaint.as_ref(),
        part.set.as_ref(),
        part.code.as_ref(),
    ]
}

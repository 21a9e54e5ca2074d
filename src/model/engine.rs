//! An engine, its statements and its variants.

use std::sync::Arc;

use super::{
    EngineId, MachineId, MakerId, OnValue, Printed, SerialRange, SourceId, Statement, VariantId, Waiver,
    Years,
};

use crate::source::Span;

/// One engine.
#[derive(Debug)]
pub struct Engine {
    /// Its id.
    pub id: EngineId,
    /// Where its id is typed.
    pub span: Span,
    /// Its maker.
    pub maker: MakerId,
    /// Its title.
    pub title: String,
    /// How it is laid out.
    pub layout: Option<Layout>,
    /// Its statements in file order, variants aside.
    pub statements: Vec<Arc<Statement>>,
    /// Its variants in file order.
    pub variants: Vec<Variant>,
    /// Warnings about its values that the lead accepts.
    pub waivers: Vec<Waiver<OnValue>>,
    /// False if part of the file could not be read: then nothing is said to be missing from it.
    pub whole: bool,
}

/// How an engine is laid out.
#[derive(Debug)]
pub struct Layout {
    /// `four-stroke` or `two-stroke`.
    pub cycle: String,
    /// `petrol` or `diesel`.
    pub fuel: String,
    /// Number of cylinders.
    pub cylinders: u32,
    /// Bore.
    pub bore: Option<Printed>,
    /// Stroke.
    pub stroke: Option<Printed>,
    /// Swept volume.
    pub displacement: Option<Printed>,
    /// The shop's words for it.
    pub words: Option<String>,
}

/// What a bulletin changes.
#[derive(Debug)]
pub struct Variant {
    /// Its id.
    pub id: VariantId,
    /// Where its id is typed.
    pub span: Span,
    /// The bulletin.
    pub source: Option<SourceId>,
    /// The machines it holds for.
    pub reach: Vec<Reach>,
    /// Variants it takes the place of.
    pub replaces: Vec<VariantId>,
    /// Why, in the shop's words.
    pub note: Option<String>,
    /// The statements it sets or adds.
    pub statements: Vec<Arc<Statement>>,
}

/// Machines a variant holds for.
#[derive(Debug)]
pub struct Reach {
    /// Where it is typed.
    pub span: Span,
    /// The machine.
    pub machine: MachineId,
    /// Its years; all if none.
    pub years: Option<Years>,
    /// Its serial numbers; all if none.
    pub serial: Option<SerialRange>,
}

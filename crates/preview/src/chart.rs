//! The working chart for the page: the shapes that the renderer draws, in the places where it draws them.

use crate::message::{ChartBlockMessage, ChartMessage, ChartShapes};
use knotwright_render::{
    self as render, ChartOptions, Form, TyingScript, WorkingChart, hanging_end, knot_shape, tag_shape,
};

/// The chart of a band.
pub(crate) fn chart(script: &TyingScript) -> ChartMessage {
    let chart = WorkingChart::of(script, &ChartOptions::default());
    ChartMessage {
        size: [chart.size.x, chart.size.y],
        cell: [chart.cell.x, chart.cell.y],
        blocks: chart.blocks.iter().map(block).collect(),
        block_of: chart.block_of,
        ends: chart.ends.iter().map(|cord| (cord.thread, cord.path.svg(), cord.is_turn)).collect(),
        thickness: chart.thickness,
        marks: chart.marks,
        shapes: ChartShapes {
            ribbons: Form::ALL.into_iter().map(knot_shape).collect(),
            hanging: hanging_end(),
            tags: [tag_shape(false), tag_shape(true)],
        },
    }
}

fn block(block: &render::ChartBlock) -> ChartBlockMessage {
    ChartBlockMessage {
        part: block.part,
        places: block.knots.iter().map(|knot| [knot.middle.x, knot.middle.y]).collect(),
        cords: block.cords.iter().map(|cord| (cord.thread, cord.path.svg())).collect(),
    }
}

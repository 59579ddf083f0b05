//! Charts say the same band, proved by the layout.

mod support;

use knotwright_band::Kind::{Backward as B, Forward as F, ForwardBackward as T};
use knotwright_band::{ChartError, KnotChart, Piece, PieceError, normal_form};
use proptest::prelude::*;
use support::*;

proptest! {
    #[test]
    fn a_piece_and_its_chart_are_one_band(piece in any_piece(9, 0..80)) {
        let chart = KnotChart::of(&piece);
        let rows: Vec<_> = chart.rows().collect();
        let again = KnotChart::from_rows(piece.strands(), chart.offset(), &rows).unwrap().piece().unwrap();
        prop_assert_eq!(normal_form(&again), normal_form(&piece));
        prop_assert_eq!(again.order(), piece.order());
        prop_assert_eq!(rows.iter().flatten().flatten().count(), piece.knots().len());
        prop_assert!(rows.first().is_none_or(|row| row.iter().any(Option::is_some)), "no empty first row");
    }
}

#[test]
fn marks_stand_where_the_bricks_lie() {
    let chart = KnotChart::of(&piece(6, &[(4, B), (0, F), (1, T), (2, F)]));
    let rows: Vec<_> = chart.rows().collect();
    assert!(!chart.offset());
    assert_eq!(rows, [vec![Some(F), None, Some(B)], vec![Some(T), None], vec![None, Some(F), None]]);
}

#[test]
fn a_piece_that_begins_with_the_second_pair_has_an_offset_chart() {
    let chart = KnotChart::of(&piece(5, &[(1, F), (0, B), (2, F), (3, B)]));
    let rows: Vec<_> = chart.rows().collect();
    assert!(chart.offset());
    assert_eq!(rows, [vec![Some(F), None], vec![Some(B), Some(F)], vec![None, Some(B)]]);
}

#[test]
fn rows_of_the_wrong_length_are_named() {
    let found = KnotChart::from_rows(6, false, &[vec![Some(F); 3], vec![Some(F); 3]]);
    assert_eq!(found, Err(ChartError::RowLength { row: 1, marks: 3, wanted: 2 }));
    let wide = KnotChart::from_rows(201, false, &[]);
    assert_eq!(wide, Err(ChartError::Piece(PieceError::TooManyStrands { strands: 201 })));
}

#[test]
fn nothing_has_an_empty_chart() {
    assert_eq!(KnotChart::of(&Piece::empty(0)).rows().count(), 0);
    assert_eq!(KnotChart::of(&Piece::empty(5)).rows().count(), 0);
}

//! The commands: one file each, with what can be typed, what that means, and what is done.

pub(crate) mod chart;
pub(crate) mod check;
pub(crate) mod compare;
pub(crate) mod completions;
pub(crate) mod design;
pub(crate) mod draw;
pub(crate) mod explain;
pub(crate) mod export;
pub(crate) mod format;
pub(crate) mod gallery;
pub(crate) mod git_diff;
pub(crate) mod kit;
pub(crate) mod locate;
pub(crate) mod man;
pub(crate) mod measure;
pub(crate) mod merge;
pub(crate) mod new;
pub(crate) mod plan;
pub(crate) mod preview;
pub(crate) mod refresh;
pub(crate) mod review;
pub(crate) mod serve;
pub(crate) mod sheet;
pub(crate) mod start_for;
pub(crate) mod write;

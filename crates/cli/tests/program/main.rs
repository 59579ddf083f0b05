//! The real program in folders of its own: what it writes, what it says, how it ends.

mod changed;
mod check;
mod compare;
mod draw;
mod explain;
mod export;
mod find;
mod follow;
mod format;
mod measure;
mod mend;
mod new;
mod pictures;
mod place;
mod plan;
mod refresh;
mod reports;
mod review;
mod serve;
mod shard;
mod sheet;
mod stage;
mod stdin;
mod text;
mod trouble;
mod write;

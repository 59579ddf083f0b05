//! The real program in folders of its own: what it writes, what it says, how it ends.

mod baseline;
mod check;
mod compare;
mod design;
mod draw;
mod ends;
mod explain;
mod export;
mod find;
mod follow;
mod format;
mod gallery;
mod guide;
mod kit;
mod measure;
#[cfg(target_os = "linux")]
mod memory;
mod mend;
mod new;
mod packages;
mod pictures;
mod place;
mod plan;
mod refresh;
mod reports;
mod rewritten;
mod serve;
mod shard;
mod sheet;
mod stage;
mod stdin;
mod text;
mod trouble;
mod wish;
mod with_git;
mod write;

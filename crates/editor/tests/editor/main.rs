//! What an editor receives, on small texts with the cursor marked by `‸`, and on all sample patterns.

mod actions;
mod broken;
mod completion;
mod hover;
mod names;
mod outline;
mod refactorings;
mod signature;
mod support;
mod waiting;

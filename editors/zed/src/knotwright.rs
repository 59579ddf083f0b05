//! Starts `knotwright serve`, as it stands on the path.

use zed_extension_api::{Command, Extension, LanguageServerId, Result, Worktree, register_extension};

struct Knotwright;

impl Extension for Knotwright {
    fn new() -> Self {
        Self
    }

    fn language_server_command(&mut self, _: &LanguageServerId, worktree: &Worktree) -> Result<Command> {
        let program = worktree.which("knotwright").ok_or("There is no `knotwright` on the path.")?;
        Ok(Command { command: program, args: vec!["serve".to_owned()], env: worktree.shell_env() })
    }
}

register_extension!(Knotwright);

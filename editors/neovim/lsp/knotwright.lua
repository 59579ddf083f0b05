-- Neovim 0.11 and newer find the server here. It also knows the patterns that Markdown fences as `knot`.
return {
  cmd = { 'knotwright', 'serve' },
  filetypes = { 'knotwright', 'markdown' },
  -- Settings of a folder add to those of its repository, which is the workspace.
  -- A motif that was just made is named at once: `plugin/knotwright.lua` has the command.
  capabilities = vim.tbl_deep_extend('force', vim.lsp.protocol.make_client_capabilities(), {
    experimental = { knotwright = { commands = { 'knotwright.rename' } } },
  }),
  root_markers = { '.git', 'knotwright.toml' },
}

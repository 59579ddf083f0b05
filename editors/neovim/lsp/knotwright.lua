-- Neovim 0.11 and newer find the server here. It also knows the patterns that Markdown fences as `knot`.
return {
  cmd = { 'knotwright', 'serve' },
  filetypes = { 'knotwright', 'markdown' },
  root_markers = { 'knotwright.toml', '.git' },
}

-- Neovim 0.11 and newer find the server here.
return { cmd = { 'knotwright', 'serve' }, filetypes = { 'knotwright' }, root_markers = { 'knotwright.toml', '.git' } }

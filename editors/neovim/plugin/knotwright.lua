-- Patterns of friendship bracelets: their server, their colors, and commands that show the band.
if vim.g.loaded_knotwright then return end
vim.g.loaded_knotwright = true

local knotwright = require('knotwright')

if vim.lsp.enable then
  vim.lsp.commands['knotwright.rename'] = knotwright.rename
  vim.lsp.enable('knotwright')
end
if vim.treesitter.language and vim.treesitter.language.register then
  -- A block that Markdown fences as `knot` is a pattern too.
  vim.treesitter.language.register('knotwright', { 'knotwright', 'knot' })
end

vim.api.nvim_create_autocmd('FileType', { pattern = 'knotwright', callback = function(event) knotwright.attach(event.buf) end })

local commands = {
  KnotPicture = { knotwright.picture, nargs = '?', complete = 'file', desc = 'The band, shown or written to a file' },
  KnotWords = { knotwright.words, nargs = 0, desc = 'Instructions for the pattern' },
  KnotThread = { knotwright.thread, nargs = '?', desc = 'Thread to cut, for a length such as 150mm' },
  KnotPreview = { knotwright.preview, nargs = 0, desc = 'The band in a browser, where it follows the text' },
}
for name, command in pairs(commands) do
  local run = table.remove(command, 1)
  vim.api.nvim_create_user_command(name, function(call) run(call.args) end, command)
end

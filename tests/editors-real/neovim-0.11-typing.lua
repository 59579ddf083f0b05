-- nvim --headless -u NONE -i NONE -l neovim-0.11-typing.lua; BAND and SERVER as for neovim-0.11.lua.
-- Drives a second Neovim by its keys, as a person would: what its own completion makes of proposals of several words.
local PATIENCE_MS = 120000
local function need(holds, what)
  if not holds then error('missing: ' .. what) end
end
local editor = vim.fn.jobstart({ vim.v.progpath, '--embed', '--headless', '-u', 'NONE', '-i', 'NONE' }, { rpc = true })
local function lua(code, ...) return vim.rpcrequest(editor, 'nvim_exec_lua', code, { ... }) end
local function keys(text) vim.rpcrequest(editor, 'nvim_input', text) end
local function wait(code, what)
  need(vim.wait(PATIENCE_MS, function() return lua(code) end, 50), what .. ', not ' .. vim.inspect(lua('return vim.api.nvim_get_current_line()')))
end

lua([[
  local band, server = ...
  vim.filetype.add({ extension = { knot = 'knotwright' } })
  vim.lsp.config('knotwright', { cmd = server, filetypes = { 'knotwright' }, root_dir = vim.fs.dirname(band) })
  vim.lsp.enable('knotwright')
  vim.o.swapfile = false
  vim.o.completeopt = 'menu,menuone'
  vim.api.nvim_create_autocmd('LspAttach', {
    callback = function(event) vim.lsp.completion.enable(true, event.data.client_id, event.buf, { autotrigger = false }) end,
  })
  vim.cmd.edit(band)
  vim.bo.filetype = 'knotwright'
]], vim.env.BAND, vim.json.decode(vim.env.SERVER))
wait([[local client = vim.lsp.get_clients({ bufnr = 0 })[1]; return client ~= nil and client.initialized]], 'the server')

-- The first proposal after `take ` is a place of two words with the color in parentheses.
keys('7Gotake ')
wait([[return vim.api.nvim_get_current_line():find('take $') ~= nil]], 'what was typed')
keys('<C-x><C-o>')
wait([[return vim.fn.pumvisible() == 1]], 'proposals')
local first = lua([[return vim.fn.complete_info({ 'items' }).items[1].abbr]])
need(first:find(' '), 'a proposal of several words, not ' .. first)
keys('<C-y>')
vim.wait(500)
keys('<Esc>')
wait(('return vim.trim(vim.api.nvim_get_current_line()) == %q'):format('take ' .. first), 'take ' .. first)
vim.rpcrequest(editor, 'nvim_command', 'lua for _, client in ipairs(vim.lsp.get_clients()) do client:stop() end')
wait([[return #vim.lsp.get_clients() == 0]], 'the end')
vim.fn.jobstop(editor)
io.stdout:write('RESULT ok\n')
vim.cmd('qa!')

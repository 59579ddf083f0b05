-- nvim --headless -u NONE -i NONE -l neovim-0.11.lua; BAND is the file, SERVER a JSON list: the command of the server.
-- How long an answer may take: far longer than ever seen, as the machine may be busy with something else.
local PATIENCE_MS = 120000
local function need(holds, what)
  if not holds then error('missing: ' .. what) end
end
local function wait(found, what)
  need(vim.wait(PATIENCE_MS, found, 20), what)
end

vim.filetype.add({ extension = { knot = 'knotwright' } })
vim.lsp.config('knotwright', {
  cmd = vim.json.decode(vim.env.SERVER), filetypes = { 'knotwright' }, root_dir = vim.fs.dirname(vim.env.BAND),
})
vim.lsp.enable('knotwright')
vim.diagnostic.config({ virtual_text = true })
vim.cmd('edit ' .. vim.env.BAND)
vim.bo.filetype = 'knotwright'
local buffer = vim.api.nvim_get_current_buf()
wait(function()
  local client = vim.lsp.get_clients({ bufnr = buffer })[1]
  return client and client.initialized
end, 'the server')
local client = vim.lsp.get_clients({ bufnr = buffer })[1]
need(client.offset_encoding == 'utf-8', 'columns in UTF-8, not ' .. client.offset_encoding)

wait(function() return #vim.diagnostic.get(buffer) > 0 end, 'findings')
local finding = vim.diagnostic.get(buffer)[1]
need(finding.code == 'broken-promise' and finding.lnum == 8, 'the promise: ' .. vim.inspect(finding))
local shown = {}
wait(function()
  for _, space in pairs(vim.api.nvim_get_namespaces()) do
    for _, mark in ipairs(vim.api.nvim_buf_get_extmarks(buffer, space, 0, -1, { details = true })) do
      for _, chunk in ipairs(mark[4].virt_text or {}) do table.insert(shown, chunk[1]) end
    end
  end
  return table.concat(shown):find('kelp') ~= nil
end, 'the finding beside its line')

vim.lsp.inlay_hint.enable(true, { bufnr = buffer })
wait(function() return #vim.lsp.inlay_hint.get({ bufnr = buffer }) > 0 end, 'remarks')
wait(function()
  for _, space in pairs(vim.api.nvim_get_namespaces()) do
    for _, mark in ipairs(vim.api.nvim_buf_get_extmarks(buffer, space, 0, -1, { details = true })) do
      if mark[4].hl_group_link or (mark[4].hl_group or ''):find('@lsp.type.keyword') then return true end
    end
  end
  return false
end, 'colored words')

vim.api.nvim_win_set_cursor(0, { 7, 16 })
vim.lsp.buf.hover()
local float
wait(function()
  for _, window in ipairs(vim.api.nvim_list_wins()) do
    if vim.api.nvim_win_get_config(window).relative ~= '' then float = window; return true end
  end
end, 'the hover')
local words = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(float), 0, -1, false), '\n')
need(words:find('kelp') and not words:find('base64'), 'words in the hover: ' .. words)
vim.api.nvim_win_close(float, true)

local here = vim.lsp.util.make_position_params(0, client.offset_encoding)
for _, method in ipairs({ 'completion', 'signatureHelp', 'documentHighlight', 'definition', 'prepareRename',
  'prepareCallHierarchy', 'linkedEditingRange' }) do
  local answer = client:request_sync('textDocument/' .. method, here, PATIENCE_MS, buffer)
  need(answer and not answer.err, method .. ': ' .. vim.inspect(answer))
end
local document = { textDocument = here.textDocument }
for _, method in ipairs({ 'documentColor', 'documentSymbol', 'foldingRange', 'codeLens', 'documentLink' }) do
  local answer = client:request_sync('textDocument/' .. method, document, PATIENCE_MS, buffer)
  need(answer and not answer.err and type(answer.result) == 'table', method .. ': ' .. vim.inspect(answer))
end
local range = { start = { line = 6, character = 0 }, ['end'] = { line = 9, character = 0 } }
local actions = client:request_sync('textDocument/codeAction',
  { textDocument = here.textDocument, range = range, context = { diagnostics = {} } }, PATIENCE_MS, buffer)
need(actions and not actions.err, 'actions: ' .. vim.inspect(actions))
local everywhere = client:request_sync('workspace/symbol', { query = 'pier' }, PATIENCE_MS, buffer)
need(everywhere.result[1].name == 'Pier', 'the pattern by its name: ' .. vim.inspect(everywhere))

vim.lsp.buf.format({ timeout_ms = PATIENCE_MS })
need(vim.api.nvim_buf_get_lines(buffer, 7, 8, false)[1] == '  take left 1: forward 3', 'one space between words')

-- The promise is mended by hand, with an emoji in the way; the finding goes.
vim.api.nvim_buf_set_lines(buffer, 8, 9, false, { '  take left 1: forward 3 -- \u{1F9F5} foam' })
wait(function() return #vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR }) == 0 end, 'no more errors')

-- The same band in a quote within Markdown.
local page, quoted = vim.env.BAND:gsub('%.knot$', '.md'), { '# Pier', '', '> ```knot' }
for _, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do table.insert(quoted, '> ' .. line) end
vim.fn.writefile(vim.list_extend(quoted, { '> ```' }), page)
vim.cmd('edit ' .. page)
vim.bo.filetype = 'markdown'
local markdown = vim.api.nvim_get_current_buf()
vim.lsp.buf_attach_client(markdown, client.id)
document = { textDocument = vim.lsp.util.make_text_document_params(markdown) }
for method, more in pairs({
  documentSymbol = {}, foldingRange = {}, codeLens = {}, documentColor = {}, ['semanticTokens/full'] = {},
  inlayHint = { range = { start = { line = 0, character = 0 }, ['end'] = { line = 99, character = 0 } } },
  selectionRange = { positions = { { line = 4, character = 4 } } },
  formatting = { options = { tabSize = 2, insertSpaces = true } },
}) do
  local answer = client:request_sync('textDocument/' .. method, vim.tbl_extend('error', document, more), PATIENCE_MS, markdown)
  need(answer and not answer.err and type(answer.result) == 'table', method .. ' in Markdown: ' .. vim.inspect(answer))
  need(method ~= 'documentSymbol' or answer.result[1].name == 'Pier', 'the pattern by its name in Markdown')
  need(method == 'formatting' or next(answer.result.data or answer.result), 'something of ' .. method .. ' in Markdown')
end
local all = client:request_sync('workspace/diagnostic', { previousResultIds = {} }, PATIENCE_MS, markdown)
need(all and not all.err and #all.result.items == 2, 'findings of both files: ' .. vim.inspect(all))
client:stop()
wait(function() return client:is_stopped() end, 'the end')
io.stdout:write('RESULT ok\n')
vim.cmd('qa!')

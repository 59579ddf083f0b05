-- A Neovim that others drive: the language server, and what an author puts into their own settings for the live picture.
vim.filetype.add({ extension = { knot = 'knotwright' } })
vim.o.swapfile = false
local buffer = vim.api.nvim_get_current_buf()
local id = vim.lsp.start({ name = 'knotwright', cmd = { vim.env.KNOTWRIGHT, 'serve' }, root_dir = vim.fs.dirname(vim.api.nvim_buf_get_name(buffer)) })
local uri = vim.uri_from_bufnr(buffer)
local function client() return vim.lsp.get_client_by_id(id) end

function Address()
  vim.wait(120000, function() return client() and client().initialized end, 10)
  local answer = client():request_sync('workspace/executeCommand', { command = 'knotwright.preview', arguments = { { uri = uri } } }, 120000, buffer)
  return answer.result and answer.result.url or vim.inspect(answer)
end

-- Types a number at a place, over and over: one keystroke every five milliseconds.
function Hammer(line, from, to, count, last)
  local timer, done = vim.uv.new_timer(), 0
  Hammered = false
  timer:start(0, 5, vim.schedule_wrap(function()
    if Hammered then return end
    done = done + 1
    local text = done >= count and last or tostring(1 + done % 4)
    vim.api.nvim_buf_set_text(buffer, line, from, line, to, { text })
    if done >= count then timer:stop(); Hammered = true end
  end))
end

vim.api.nvim_create_autocmd({ 'CursorMoved', 'CursorMovedI' }, {
  buffer = buffer,
  callback = function()
    if not client() then return end
    local position = vim.lsp.util.make_position_params(0, client().offset_encoding).position
    client():request('workspace/executeCommand', { command = 'knotwright.previewCursor', arguments = { { uri = uri, position = position } } }, function() end, buffer)
  end,
})

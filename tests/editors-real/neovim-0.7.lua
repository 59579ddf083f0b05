-- nvim --headless -u NONE -i NONE -c 'luafile neovim-0.7.lua'; BAND is the file, SERVER a JSON list: the command of the
-- server. An old client: it is sent findings, and counts columns in UTF-16.
-- How long an answer may take: far longer than ever seen, as the machine may be busy with something else.
local PATIENCE_MS = 120000
local function need(holds, what)
  if not holds then error('missing: ' .. what) end
end
local function wait(found, what)
  need(vim.wait(PATIENCE_MS, found, 20), what)
end

local function session()
  vim.cmd('edit ' .. vim.env.BAND)
  local buffer = vim.api.nvim_get_current_buf()
  local id = vim.lsp.start_client({
    name = 'knotwright', cmd = vim.fn.json_decode(vim.env.SERVER), root_dir = vim.fn.fnamemodify(vim.env.BAND, ':h'),
    capabilities = vim.lsp.protocol.make_client_capabilities(),
  })
  vim.lsp.buf_attach_client(buffer, id)
  wait(function()
    local client = vim.lsp.get_client_by_id(id)
    return client and client.initialized
  end, 'the server')
  wait(function() return #vim.diagnostic.get(buffer) > 0 end, 'findings')
  local finding = vim.diagnostic.get(buffer)[1]
  need(finding.lnum == 8 and finding.message:find('kelp'), 'the promise: ' .. vim.inspect(finding))

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

  local answers = vim.lsp.buf_request_sync(buffer, 'textDocument/completion', vim.lsp.util.make_position_params(), PATIENCE_MS)
  need(#answers[id].result > 0, 'proposals')
  vim.lsp.buf.formatting_sync(nil, PATIENCE_MS)
  need(vim.api.nvim_buf_get_lines(buffer, 7, 8, false)[1] == '  take left 1: forward 3', 'one space between words')

  vim.api.nvim_buf_set_lines(buffer, 8, 9, false, { '  take left 1: forward 3 -- 🧵 foam' })
  wait(function()
    return #vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR }) == 0
  end, 'no more errors')
  vim.lsp.stop_client(id)
  wait(function() return vim.lsp.get_client_by_id(id) == nil or vim.lsp.client_is_stopped(id) end, 'the end')
end

local done, trouble = pcall(session)
io.stdout:write(done and 'RESULT ok\n' or (tostring(trouble) .. '\n'))
vim.cmd(done and 'qa!' or 'cquit 1')

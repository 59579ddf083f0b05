-- nvim --headless -i NONE -c 'luafile neovim-plugin.lua': with an init.lua, and the parser compiled, as the page on Neovim
-- says. BAND is the file, and knotwright is on the path.
-- How long an answer may take: far longer than ever seen, as the machine may be busy with something else.
local PATIENCE_MS = 120000
local function need(holds, what)
  if not holds then error('missing: ' .. what) end
end
local function wait(found, what)
  need(vim.wait(PATIENCE_MS, found, 20), what)
end
local function errors(buffer)
  return #vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR })
end
local function all(buffer)
  return table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, false), '\n')
end

-- What the tree-sitter parser and the queries make of the text, where Neovim has both.
local function colors(buffer)
  need(vim.treesitter.highlighter.active[buffer], 'the parser at work')
  vim.treesitter.get_parser(buffer):parse()
  for place, wanted in pairs({ ['6:2'] = 'keyword', ['6:14'] = 'punctuation.bracket', ['6:22'] = 'function.builtin', ['1:12'] = 'constant' }) do
    local line, column = place:match('(%d+):(%d+)')
    local found = vim.treesitter.get_captures_at_pos(buffer, tonumber(line), tonumber(column))
    need(#found == 1 and found[1].capture == wanted, wanted .. ' at ' .. place .. ': ' .. vim.inspect(found))
  end
  local markdown = vim.treesitter.get_string_parser('Look:\n\n```knot\nthread foam white\n```\n', 'markdown')
  markdown:parse(true)
  need(markdown:children().knotwright, 'a pattern within Markdown')
end

-- A mistake in a pattern within Markdown is found at its place.
local function markdown()
  local page = vim.env.BAND:gsub('%.knot$', '.md')
  local band = vim.fn.readfile(vim.env.BAND)
  vim.fn.writefile(vim.list_extend(vim.list_extend({ '# Pier', '', '```knot' }, band), { '```' }), page)
  vim.cmd('edit ' .. page)
  local buffer = vim.api.nvim_get_current_buf()
  wait(function() return errors(buffer) == 1 end, 'the finding within Markdown')
  need(vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR })[1].lnum == 11, 'its line')
  local client = vim.lsp.get_clients({ bufnr = buffer })[1]
  need(not client:supports_method('textDocument/formatting', buffer), 'Markdown is not ours to format')
  vim.cmd('bwipeout')
end

-- What is at an address of this machine.
local function fetched(url)
  local host, port, path = url:match('^http://([%d.]+):(%d+)(/.*)$')
  need(host == '127.0.0.1', 'an address of this machine: ' .. url)
  local socket, got, ended = vim.loop.new_tcp(), '', false
  socket:connect(host, tonumber(port), function(refused)
    if refused then ended = true return end
    socket:write('GET ' .. path .. ' HTTP/1.1\r\nHost: ' .. host .. ':' .. port .. '\r\nConnection: close\r\n\r\n')
    socket:read_start(function(_, part)
      if part then got = got .. part else ended = true end
    end)
  end)
  wait(function() return ended end, 'an answer from ' .. url)
  socket:close()
  return got
end

-- The live picture is opened outside where Neovim can; else its address is said, also where the system has no program for it.
local function preview()
  local shown, opened
  vim.notify = function(text) shown = text end
  if vim.ui.open then
    vim.ui.open = function(address) opened = address return {} end
    vim.cmd('KnotPreview')
    wait(function() return opened end, 'the live picture, opened')
    need(not shown, 'nothing to say of what is opened')
    vim.ui.open = function() return nil, 'no program opens it' end
  end
  vim.cmd('KnotPreview')
  wait(function() return shown end, 'the address of the live picture')
  local page = fetched(shown)
  need(page:find('^HTTP/1.1 200') and page:find('id="canvas"', 1, true), 'the live picture at ' .. shown .. ': ' .. page)
end

local function session()
  vim.cmd('edit ' .. vim.env.BAND)
  local buffer = vim.api.nvim_get_current_buf()
  need(vim.bo.filetype == 'knotwright' and vim.bo.commentstring == '-- %s', 'the type of the file')
  if vim.treesitter.start then
    colors(buffer)
  else
    need(vim.fn.synIDattr(vim.fn.synID(8, 3, 1), 'name') == 'knotStatement', 'colors')
  end
  wait(function() return errors(buffer) == 1 end, 'the findings')

  vim.cmd('silent make')
  local quickfix = vim.fn.getqflist()
  need(#quickfix == 1 and quickfix[1].lnum == 9 and quickfix[1].type:lower() == 'e' and quickfix[1].text:find('kelp'),
    'the finding in the quickfix list: ' .. vim.inspect(quickfix))

  local said
  vim.notify = function(text) said = text end
  vim.cmd('KnotWords')
  wait(function() return said end, 'why there are no instructions')
  vim.api.nvim_buf_set_lines(buffer, 8, 9, false, { '  take left 1: forward 3' })
  wait(function() return errors(buffer) == 0 end, 'no more errors')

  local picture = vim.env.BAND:gsub('%.knot$', '.svg')
  vim.cmd('KnotPicture ' .. picture)
  wait(function()
    local drawn = vim.fn.filereadable(picture) == 1 and table.concat(vim.fn.readfile(picture)) or ''
    return drawn:find('<svg', 1, true) and drawn:find('</svg>', 1, true)
  end, 'a picture in the file')
  for command, word in pairs({ KnotWords = 'kelp', ['KnotThread 150mm'] = 'cm' }) do
    vim.cmd(command)
    wait(function() return vim.api.nvim_get_current_buf() ~= buffer end, 'a page of ' .. command)
    need(vim.bo.filetype == 'markdown' and all(0):find(word), command .. ': ' .. all(0))
    vim.cmd('close')
  end
  preview()
  if vim.lsp.enable then markdown() end
end

local done, trouble = pcall(session)
io.stdout:write(done and 'RESULT ok\n' or (tostring(trouble) .. '\n'))
vim.cmd(done and 'qa!' or 'cquit 1')

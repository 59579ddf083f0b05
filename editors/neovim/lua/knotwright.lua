-- What the commands do. Written for Neovim 0.7 and newer.
local M = {}

local function say(text, level)
  vim.notify(text, vim.log.levels[level or 'INFO'])
end

--- Starts what an open pattern needs; what a newer Neovim does by itself is left to it.
function M.attach(buffer)
  if vim.treesitter.start then
    pcall(vim.treesitter.start, buffer, 'knotwright') -- without a parser Vim's colors stay
  end
  if vim.lsp.enable then return end
  if not M.old then
    local id = vim.lsp.start_client({
      name = 'knotwright', cmd = { 'knotwright', 'serve' }, root_dir = vim.fn.getcwd(),
      capabilities = vim.lsp.protocol.make_client_capabilities(), on_exit = function() M.old = nil end,
    })
    M.old = id
  end
  if M.old then vim.lsp.buf_attach_client(buffer, M.old) end
end

local function client()
  local find = vim.lsp.get_clients or vim.lsp.get_active_clients
  for _, one in pairs(find()) do
    if one.name == 'knotwright' and vim.lsp.buf_is_attached(0, one.id) then return one end
  end
  say('knotwright does not serve this buffer.', 'WARN')
end

--- Asks the server to carry out a command for the pattern at the cursor; `show` is given its answer.
local function ask(command, arguments, show)
  local server = client()
  if not server then return end
  arguments.uri = vim.uri_from_bufnr(0)
  arguments.position = vim.lsp.util.make_position_params(0, server.offset_encoding).position
  local function answered(error, result)
    if error then return say(error.message, 'ERROR') end
    if result then show(result) end
  end
  local parameters = { command = command, arguments = { arguments } }
  if vim.fn.has('nvim-0.11') == 1 then
    server:request('workspace/executeCommand', parameters, answered, 0)
  else
    server.request('workspace/executeCommand', parameters, answered, 0)
  end
end

--- Opens a file or an address in the program that the system has for it; where there is none, says what it is.
local function open(what)
  local process = vim.ui.open and vim.ui.open(what)
  if not process then say(what) end
end

--- A page of Markdown in a window of its own, which `q` closes.
local function page(answer)
  vim.cmd('botright new')
  vim.api.nvim_buf_set_lines(0, 0, -1, false, vim.split(answer.markdown, '\n'))
  vim.bo.buftype, vim.bo.bufhidden, vim.bo.filetype, vim.bo.modifiable = 'nofile', 'wipe', 'markdown', false
  vim.api.nvim_buf_set_keymap(0, 'n', 'q', '<Cmd>close<CR>', { noremap = true, nowait = true })
end

--- Writes the picture to `file`, or shows it in the program that the system has for pictures.
function M.picture(file)
  ask('knotwright.picture', {}, function(answer)
    local path = file ~= '' and vim.fn.expand(file) or (vim.fn.tempname() .. '.svg')
    if vim.fn.writefile(vim.split(answer.svg, '\n'), path) ~= 0 then return end
    if file == '' then open(path) else say('Written to ' .. path) end
  end)
end

--- Asks for another name for what stands at a place; the server's, after a change that gives a name.
function M.rename(command, context)
  local asked = command.arguments[1]
  local range = { start = asked.position, ['end'] = asked.position }
  local encoding = vim.lsp.get_client_by_id(context.client_id).offset_encoding
  vim.lsp.util.show_document({ uri = asked.uri, range = range }, encoding, { focus = true })
  vim.lsp.buf.rename()
end

function M.words()
  ask('knotwright.words', {}, page)
end

function M.thread(length)
  ask('knotwright.thread', { length = length ~= '' and length or nil }, page)
end

function M.preview()
  ask('knotwright.preview', {}, function(answer) open(answer.url) end)
end

return M

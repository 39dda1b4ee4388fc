-- Runs in a headless Neovim that was set up as the README says: opens a file, and writes what an editor would show as
-- JSON into the file that STAVE_ANSWER names. Neovim 0.7 (Debian 12) and later.
local result = {}
vim.cmd('edit winter.stave')
local buffer = vim.api.nvim_get_current_buf()
local client = stave_client
result.filetype = vim.bo[buffer].filetype

local function request(method, more)
  local params = vim.tbl_extend('force', { textDocument = { uri = vim.uri_from_bufnr(buffer) } }, more)
  local answers = vim.lsp.buf_request_sync(buffer, method, params, 10000)
  return answers and answers[client] and answers[client].result
end

local function place(text, plus)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
    local at = string.find(line, text, 1, true)
    if at then return { line = number - 1, character = at - 1 + plus } end
  end
end

vim.wait(10000, function() return vim.lsp.buf_get_clients(buffer)[client] ~= nil end)
local last = vim.api.nvim_buf_line_count(buffer)
result.hints = request('textDocument/inlayHint', {
  range = { start = { line = 0, character = 0 }, ['end'] = { line = last, character = 0 } },
})
result.hover = request('textDocument/hover', { position = place('3x6 r2', 1) })

-- A mistake, typed; Neovim shows what the server sends.
local row = place('back squat:     3x6', 0).line
local line = vim.api.nvim_buf_get_lines(buffer, row, row + 1, false)[1]
vim.api.nvim_buf_set_lines(buffer, row, row + 1, false, { (string.gsub(line, 'back squat', 'back ssquat')) })
vim.wait(10000, function()
  for _, one in ipairs(vim.diagnostic.get(buffer)) do
    if string.find(one.message, 'ssquat', 1, true) then return true end
  end
  return false
end)
result.diagnostics = vim.tbl_map(function(one)
  return { line = one.lnum, message = one.message, code = one.code }
end, vim.diagnostic.get(buffer))

-- The line is written without its layout, and the whole file is laid out.
vim.api.nvim_buf_set_lines(buffer, row, row + 1, false, { (string.gsub(line, '^%s+back squat:%s+3x6', 'back squat: 3X6')) })
if vim.lsp.buf.format then
  vim.lsp.buf.format({ timeout_ms = 10000 })
else
  vim.lsp.buf.formatting_sync(nil, 10000)
end
result.formatted = vim.api.nvim_buf_get_lines(buffer, row, row + 1, false)[1]

local file = io.open(vim.env.STAVE_ANSWER, 'w')
file:write((vim.json and vim.json.encode or vim.fn.json_encode)(result))
file:close()
vim.lsp.stop_client(client)
vim.cmd('qall!')

" vim -es -Nu NONE -i NONE -S vim.vim; INKS says what every token is, PLUGIN is the folder of the plugin, and ANSWER the
" file to answer in.
set encoding=utf-8 nomore
let s:groups = #{Comment: 'Comment', Text: 'String\|Escape', Number: 'Number', Color: 'Color',
      \ Statement: 'Statement\|Thickness', Detail: 'Detail\|Lettered\|Then\|Measured\|Statement', Kind: 'Kind', Place: 'Place', Unit: 'Unit',
      \ Operator: 'Operator', Mark: 'Mark\|Seen\|SeenKey', Motif: 'Motif', Thread: 'Name', Parameter: 'Name', Counter: 'Name', Label: 'Name'}

func s:wrong(sample, token) abort
  let line = getline(a:token.line + 1)
  " Vim takes a byte-order mark out of the text, already when it reads the JSON.
  let mark = a:token.line == 0 && a:sample.tokens[0].column == 1
  let start = byteidxcomp(line, a:token.column - mark)
  for at in [start, start + strlen(a:token.text) - 1]
    let name = synIDattr(synID(a:token.line + 1, at + 1, 1), 'name')
    if name !~# '^knot\%(' .. s:groups[a:token.ink] .. '\)$'
      return [printf('%s:%d: %s is %s, but %s', a:sample.name, a:token.line + 1, a:token.text, a:token.ink, name)]
    endif
  endfor
  return []
endfunc

func s:look() abort
  exe 'set runtimepath+=' .. $PLUGIN
  filetype plugin on
  syntax on
  let answer = []
  let number = 0
  for sample in json_decode(readfile($INKS)[0])
    enew!
    call setline(1, split(sample.text, '\r\n\|\n\|\r', 1))
    file sample.knot
    doautocmd BufRead
    if &filetype !=# 'knotwright' || &commentstring !=# '-- %s'
      return ['not a pattern: ' .. &filetype]
    endif
    for token in sample.tokens
      let answer += s:wrong(sample, token)
      let number += 1
    endfor
    bwipeout!
  endfor
  return answer + [printf('%d tokens, %d colored wrongly', number, len(answer))]
endfunc

try
  let s:answer = s:look()
catch
  let s:answer = [v:exception .. ' at ' .. v:throwpoint]
endtry
call writefile(s:answer, $ANSWER)
exe len(s:answer) == 1 && s:answer[0] =~# '[1-9]\d* tokens' ? 'qall!' : 'cquit!'

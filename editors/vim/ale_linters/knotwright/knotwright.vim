" The plugin ALE finds this by itself; then the server checks while one types.
call ale#linter#Define('knotwright', {
\   'name': 'knotwright',
\   'lsp': 'stdio',
\   'executable': 'knotwright',
\   'command': '%e serve',
\   'project_root': {buffer -> fnamemodify(bufname(buffer), ':p:h')},
\})

(block "}" @indent.branch @indent.end) @indent.begin
(rows "}" @indent.branch @indent.end) @indent.begin
(leader "}" @indent.branch @indent.end) @indent.begin
(then) @indent.begin

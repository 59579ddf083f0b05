[ (block) (rows) (leader) ] @indent.begin
"}" @indent.branch @indent.end
(then) @indent.begin

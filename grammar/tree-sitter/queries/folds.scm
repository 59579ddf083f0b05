[ (block) (rows) (leader) ] @fold

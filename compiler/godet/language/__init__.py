"""From text to a typed program: lexer, parser, tree, types, checker. Loads no numeric library."""

"""`python -m godet`."""

from godet.tools.command import main

main()

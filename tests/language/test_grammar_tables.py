"""The parse tables that are shipped are those of the grammar that is shipped."""

from __future__ import annotations

from godet.language import grammar, grammar_tables


def test_the_tables_are_made_from_this_grammar():
    # after a change to grammar.lark they are written with `python -m godet.language.grammar`
    assert grammar.digest(grammar.grammar_text()) == grammar_tables.DIGEST


def test_the_tables_hold_the_rules_and_words_of_the_grammar():
    built = grammar.built(grammar.grammar_text())
    ready = grammar.parser()
    assert {str(rule) for rule in ready.rules} == {str(rule) for rule in built.rules}
    assert {t.name for t in ready.terminals} == {t.name for t in built.terminals}

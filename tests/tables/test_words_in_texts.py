"""Words of a table found in a text: as one expression of all of them finds them.

What the words say is tested beside their tables; no source, since this is how they are looked for.
"""

import re

from hypothesis import given
from hypothesis import strategies as st

from areafit.pattern import AnyOf, Words
from areafit.tables.load import rows
from areafit.tables.materials import HiddenItem, hidden_in
from areafit.tables.part_names import TopicWord

TOPICS = sorted((row.word for row in rows("part_topics", TopicWord)), key=len, reverse=True)
BEFORE, BEHIND = r"(?<![\w-])", r"(?:e?s)?(?![\w-])"
ALL = re.compile(f"{BEFORE}({'|'.join(map(re.escape, TOPICS))}){BEHIND}")
JOINED = st.sampled_from([" ", "", "-", "s ", "es ", ", "])
WORDS = st.sampled_from([*TOPICS, "pump", "of", "316L", "ä", "e"])
TEXTS = st.lists(st.tuples(WORDS, JOINED), max_size=6).map(
    lambda pieces: "".join(word + joint for word, joint in pieces)
)


@given(TEXTS)
def test_words_are_found_as_by_one_expression_of_all(text: str) -> None:
    assert AnyOf(BEFORE, TOPICS, BEHIND).within(text).findall(text) == ALL.findall(text)


@given(TEXTS, st.lists(WORDS, unique=True, max_size=5))
def test_words_stand_in_a_text_in_the_order_of_the_table(text: str, words: list[str]) -> None:
    assert Words(words).within(text) == tuple(word for word in words if word in text)


@given(st.data())
def test_what_a_part_hides_is_told_in_the_order_of_the_table(data: st.DataObject) -> None:
    items = rows("hidden_items", HiddenItem)
    names = st.sampled_from(sorted({name for item in items for name in (item.kind, *item.names)}))
    text = " and ".join(data.draw(st.lists(names, min_size=1, max_size=3)))
    places = [items.index(item) for item in hidden_in(text, items)]
    assert places
    assert places == sorted(places)

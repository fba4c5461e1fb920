"""What a cell is called where it stands alone: what heads its row, and no remark on its block."""

from itertools import chain

from cardgen.words.english import ENGLISH
from cardgen.words.headed import row_headed
from tests.conftest import DEMO, documents_of


def test_a_row_is_named_by_its_block_but_not_by_what_is_blank_in_it():
    tables = chain.from_iterable(one.tables for one in documents_of(DEMO).values())
    blocks = [(table, block) for table in tables for block in table.blocks if block.heading]
    blank = [(table, block) for table, block in blocks if block.heading.id.endswith("cas-only")]
    assert blank
    for table, block in blank:
        flaps = block.heading.values.get("flaps")
        for row in block.rows:
            said = [ENGLISH.text(one) for one in row_headed(table, block, row)]
            assert not any("lank" in one for one in said), said
            assert not flaps or said[0].startswith(f"Flaps {flaps}")

"""CSV and TSV as a whole: both ways of reading give one answer."""

import csv
import io
from random import Random

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import eol.feeds.read_csv as module
from eol.feeds.raw import RawFile, ReadOptions
from eol.feeds.read_csv import read_csv

CELL = st.text(alphabet='ab1 ,;"\nü\\', max_size=5)
TABLE = st.lists(st.tuples(CELL, CELL, CELL), max_size=6)
PIECES = ("x", "y", '"', '""', ",", " ", "\n", "\r\n", "ü", "1")


def read(text: str, **options: str) -> RawFile:
    """Read a text in UTF-8."""
    return read_csv(text.encode(), ReadOptions(**options), where="w.csv")


def test_csv_4180() -> None:
    """The example of RFC 4180 rules 1-7; `file_row` counts rows, not the file's lines."""
    raw = read('a,b,c\r\n"aaa","b ""x"" b","c\r\nc"\r\nzzz, yyy ,\r\n')
    assert raw.frame.rows() == [
        ("aaa", 'b "x" b', "c\r\nc", 1),
        ("zzz", " yyy ", None, 2),
    ]
    assert raw.refused.is_empty()


def test_every_cell_is_text_and_an_empty_one_is_null() -> None:
    """Nothing is guessed: leading zeros, long numbers and words stay as sent."""
    raw = read('a,b,c\n007,12345678901234567890,"NA"\n,"",1e5\n')
    assert raw.frame.drop("file_row").dtypes == [pl.String] * 3
    assert raw.frame.row(0) == ("007", "12345678901234567890", "NA", 1)
    assert raw.frame.row(1) == (None, None, "1e5", 2)


def test_everything_that_is_no_data_is_skipped_and_told() -> None:
    """Comments, units, a header in the middle, blank lines, totals: one note each, in order."""
    raw = read("# W1\nsep=;\na;b\n[-];(kPa)\n1;2,5\n\na;b\n3;4\n;\nTotal;\n")
    assert raw.frame.rows() == [("1", "2,5", 1), ("3", "4", 2)]
    assert [note.split(" ")[0] for note in raw.notes] == ["1", "1", "The", "The", "The"]


def test_a_short_line_of_totals_is_skipped_too() -> None:
    """A last line with fewer cells is no half line when it opens with a word for totals."""
    raw = read("a,b,c\n1,2,3\nSumme,57\n")
    assert (raw.frame.height, raw.refused.height) == (1, 0)
    assert raw.notes == ("The line of totals at the end was skipped: Summe, 57.",)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_the_encoding_makes_no_difference(encoding: str) -> None:
    """One table in five encodings is one table."""
    text = "vin;note\r\nU1;größer\r\nU2;\r\n"
    raw = read_csv(text.encode(encoding), ReadOptions(), where="w.csv")
    assert raw.frame.rows() == [("U1", "größer", 1), ("U2", None, 2)]
    assert raw.notes == ()


def test_a_clean_file_is_not_read_row_by_row(monkeypatch: pytest.MonkeyPatch) -> None:
    """The careful way is for files that need it."""
    monkeypatch.setattr(module, "read_careful", None)
    assert read('a,b\r\n1,"2,0"\r\n').frame.rows() == [("1", "2,0", 1)]


def test_a_nul_tail_alone_does_not_need_the_careful_way(monkeypatch: pytest.MonkeyPatch) -> None:
    """Reserved space behind a finished line is cut off and the rest is clean."""
    monkeypatch.setattr(module, "read_careful", None)
    assert read("a,b\n1,2\n" + "\0" * 99).frame.rows() == [("1", "2", 1)]


@given(TABLE, st.sampled_from(["\n", "\r\n"]), st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]))
@settings(max_examples=60, derandomize=True, deadline=None)
def test_what_another_writer_wrote_is_read_back(
    table: list[tuple[str, str, str]], line_end: str, quoting: int
) -> None:
    """Any cells, written by Python's own csv module, come back cell by cell."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator=line_end, quoting=quoting)
    writer.writerows([("first", "second", "third"), *[("k" + row[0], *row[1:]) for row in table]])
    raw = read(stream.getvalue(), delimiter=",")
    assert raw.refused.is_empty()
    assert raw.frame.drop("file_row").rows() == [
        ("k" + a, b or None, c or None) for a, b, c in table
    ]


def random_text(chance: Random) -> str:
    """A small file: mostly sound rows of one to four columns, now and then anything."""
    columns, line_end = chance.randint(1, 4), chance.choice(["\n", "\r\n", "\r"])
    lines = [",".join(["a", "b", "c", "d"][:columns])]
    for _ in range(chance.randint(0, 6)):
        width = columns if chance.random() < 0.9 else chance.randint(1, 5)
        lines.append(",".join(random_cell(chance) for _ in range(width)))
    ends = [line_end if chance.random() < 0.97 else chance.choice("\n\r") for _ in lines]
    return "".join(line + end for line, end in zip(lines, ends, strict=True))


def random_cell(chance: Random) -> str:
    """Plain, quoted, or broken."""
    text = "".join(chance.choice(PIECES) for _ in range(chance.randint(0, 4)))
    kind = chance.random()
    if kind < 0.6:
        return "".join(character for character in text if character not in ',"\r\n')
    return text if kind < 0.65 else '"' + text.replace('"', '""') + '"'


@pytest.mark.slow
def test_both_ways_give_the_same_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that goes the quick way reads the same row by row: the account of bytes is a proof."""
    texts = [random_text(Random(seed)) for seed in range(400)]
    either = [read(text, delimiter=",") for text in texts]
    monkeypatch.setattr(module, "read_clean", lambda data, head: None)
    careful = [read(text, delimiter=",") for text in texts]
    assert [raw.frame.rows() for raw in either] == [raw.frame.rows() for raw in careful]
    assert [raw.refused.rows() for raw in either] == [raw.refused.rows() for raw in careful]

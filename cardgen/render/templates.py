"""Where templates are found, and what they may call."""

import json
from functools import partial
from pathlib import Path
from typing import Any

import jinja2
from jinja2.runtime import Context
from markupsafe import Markup

from cardgen import units
from cardgen.document.once import Once, Same
from cardgen.document.record import Document, Message, Paper, Table
from cardgen.document.signature import VALID, state_of, valid_to
from cardgen.folders import own_templates
from cardgen.layout.font import FILES
from cardgen.render.drawings import swatch
from cardgen.render.origins import blanks, formulas_of, paper_message
from cardgen.render.own import picture_of
from cardgen.render.sentences import SPEED_UNITS, anchor, link, quoted, sentence
from cardgen.render.tables import breadth, changed_in, figures_table, narrowed
from cardgen.words.current import FEW, superseded, then_and_now
from cardgen.words.english import ENGLISH
from cardgen.words.language import Language
from cardgen.words.numbers import number
from cardgen.words.signing import signer, signers, subjects


class Templates:
    """The templates of a site.

    Parameters
    ----------
    overrides : Path, optional
        A school's own folder; a file there stands in for ours of the same name.
    language : Language
        What puts messages into sentences.

    Attributes
    ----------
    own : Path or None
        The school's folder.
    picture : Path or None
        The school's picture, ``picture.svg`` or ``picture.png`` in its folder.
    """

    def __init__(self, overrides: Path | None = None, language: Language = ENGLISH) -> None:
        self.language = language
        self.own = overrides
        self._drawn = Once[tuple[Markup, set[str]]]()
        self._breadths = Once[float]()
        self._formulas = Once[list[str]]()
        self.picture = picture_of(overrides) if overrides else None
        folders = [path for path in (overrides, own_templates()) if path and path.is_dir()]
        self.environment = jinja2.Environment(
            loader=jinja2.FileSystemLoader(folders),
            autoescape=jinja2.select_autoescape(["html", "svg"]),
            undefined=jinja2.StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            keep_trailing_newline=True,
        )
        self.environment.filters.update(anchor=anchor, css=css, said=language.text)
        self.environment.globals.update(
            blanks=lambda name, *values: quoted(blanks(language, name, *values)),
            breadth=lambda table: self._breadths.of(table, lambda: breadth(language, table)),
            factors=factors,
            few=FEW,
            figure=language.figure,
            figures=self._figures,
            fonts=FILES.as_uri(),
            formulas_of=lambda table: self._formulas.of(table, lambda: formulas_of(table)),
            has=language.has,
            label=language.label,
            language=language.code,
            linked=self._linked,
            message=Message,
            number=number,
            paper=paper_parts,
            picture=self.picture,
            say=language.say,
            signer=signer,
            signers=signers,
            state_of=state_of,
            subjects=partial(subjects, language),
            superseded=superseded,
            then_and_now=partial(then_and_now, language),
            valid_to=valid_to,
            VALID=VALID,
            speed_units=SPEED_UNITS,
        )

    def render(self, name: str, **values: Any) -> str:
        """Return a template filled with values."""
        return self.environment.get_template(name).render(**values)

    @jinja2.pass_context
    def _linked(self, page: Context, said: str | Message | None, speeds: bool = False) -> Markup:
        """Return a message as a page says it; `seen` has the terms that the page has linked."""
        speeds = speeds and page["switched"]
        return sentence(self.language, said, page["root"], page["seen"], speeds)

    @jinja2.pass_context
    def _figures(self, page: Context, table: Table, document: Document | None = None) -> Markup:
        """Return a table of a page."""
        copied = (document.head.papers, Same(document.given)) if document else ()
        changed = changed_in(document, table) if document else frozenset()
        before = frozenset(page["seen"])

        def drawn() -> tuple[Markup, set[str]]:
            figures = figures_table(
                self.language,
                narrowed(self.language, table),
                say=lambda said, speeds=False: self._linked(page, said, speeds),
                swatches=lambda name: swatch(self, name),
                term=lambda said, speed: link(said, speed, page["root"], page["seen"]),
                document=document,
                switched=page["switched"],
                changed=changed,
            )
            return figures, page["seen"] - before

        where = page["root"], page["switched"], before
        figures, linked = self._drawn.of(table, drawn, copied, changed, where)
        page["seen"].update(linked)
        return figures


def css(words: str) -> str:
    r"""Return words as a string of CSS, which no word in them can end.

    Examples
    --------
    >>> print(css("ZZ-DUA; economy' \""))
    "ZZ\00002dDUA\00003b economy\000027 \000022"
    """
    shown = (one if one.isalnum() or one == " " else f"\\{ord(one):06x}" for one in words)
    return f'"{"".join(shown)}"'


def factors() -> Markup:
    """Return what each unit of speed is multiplied with and divided by for the others, as JSON."""
    pairs = {
        source: {
            target: [int(part) for part in units.ratio(source, target)]
            for target in SPEED_UNITS
            if target != source
        }
        for source in SPEED_UNITS
    }
    return quoted(json.dumps(pairs, separators=(",", ":")))


def paper_parts(paper: Paper) -> tuple[str | Message, ...]:
    """Return a paper's name, revision and date, those that it has."""
    revision = Message("paper-revision", {"revision": paper.revision}) if paper.revision else ""
    return tuple(part for part in (paper_message(paper), revision, paper.date) if part)

"""Where templates are found, and what they may call."""

import json
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import jinja2
from jinja2.runtime import Context, Macro
from markupsafe import Markup

from cardgen import units
from cardgen.document.once import Once, Same
from cardgen.document.record import Document, Message, Paper, Table
from cardgen.document.signature import VALID, state_of, valid_to
from cardgen.document.teaching import Lesson
from cardgen.folders import PICTURES, own_templates
from cardgen.layout.font import FILES
from cardgen.render import any_two
from cardgen.render.drawings import swatch
from cardgen.render.listed import Listed, listed
from cardgen.render.origins import blanks, formulas_of, paper_message
from cardgen.render.own import fault_of, picture_of
from cardgen.render.reckoning import wordings
from cardgen.render.sentences import SPEED_UNITS, anchor, link, quoted, sentence
from cardgen.render.tables import breadth, changed_in, figures_table, narrowed
from cardgen.words.current import FEW, superseded, then_and_now
from cardgen.words.english import ENGLISH
from cardgen.words.language import Language
from cardgen.words.numbers import number
from cardgen.words.signing import fewer, signer, signers, subjects


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
    alike : bool
        Whether ours alone are used, of which we know what they make of tables and drawings: the
        same for all aircraft that have these.
    drawn : Once
        Drawings that were made, but for their titles.
    """

    def __init__(self, overrides: Path | None = None, language: Language = ENGLISH) -> None:
        self.language = language
        self.own = overrides
        self.drawn = Once[str]()
        self._made = Once[tuple[Markup, set[str]]]()
        self.picture = picture_of(overrides) if overrides else None
        self.alike = overrides is None or not any(
            one.suffix in (".html", ".svg") and one.name not in PICTURES
            for one in overrides.rglob("*")
        )
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
            breadth=partial(breadth, language),
            factors=factors,
            few=FEW,
            figure=language.figure,
            fewer=partial(fewer, language),
            figures=self._figures,
            fonts=FILES.as_uri(),
            formulas_of=formulas_of,
            has=language.has,
            label=language.label,
            language=language.code,
            linked=self._linked,
            message=Message,
            next_wordings=lambda: Markup(any_two.wordings(language)),
            number=number,
            once=self._once,
            origins=self._origins,
            paper=paper_parts,
            picture=self.picture,
            said_all=lambda messages: quoted(json.dumps([*map(language.text, messages)])),
            say=language.say,
            signer=signer,
            signers=signers,
            state_of=state_of,
            subjects=partial(subjects, language),
            superseded=superseded,
            swatches=partial(swatch, self),
            then_and_now=partial(then_and_now, language),
            valid_to=valid_to,
            VALID=VALID,
            wordings=lambda: Markup(wordings(language)),
            speed_units=SPEED_UNITS,
        )

    def render(self, name: str, **values: Any) -> str:
        """Return a template filled with values.

        Raises
        ------
        OwnFileError
            If a school's own fails.
        """
        try:
            return self.environment.get_template(name).render(**values)
        except Exception as error:
            if self.own and (fault := fault_of(error, name, self.own)):
                raise fault from error
            raise

    @jinja2.pass_context
    def _linked(self, page: Context, said: str | Message | None, speeds: bool = False) -> Markup:
        """Return a message as a page says it; `seen` has the terms that the page has linked."""
        speeds = speeds and page["switched"]
        return sentence(self.language, said, page["root"], page["seen"], speeds)

    @jinja2.pass_context
    def _figures(self, page: Context, table: Table, document: Document | None = None) -> Markup:
        """Return a table of a page."""

        def drawn(changed: frozenset[str]) -> Markup:
            return figures_table(
                self.language,
                narrowed(self.language, table),
                say=lambda said, speeds=False: self._linked(page, said, speeds),
                swatches=lambda name: swatch(self, name),
                term=lambda said, speed: link(said, speed, page["root"], page["seen"]),
                document=document,
                switched=page["switched"],
                changed=changed,
            )

        return self._kept(page, "figures", drawn, table, document)

    @jinja2.pass_context
    def _origins(
        self, page: Context, table: Table, document: Document | None = None
    ) -> list[Listed]:
        return listed(self.language, narrowed(self.language, table), document, page["root"])

    @jinja2.pass_context
    def _once(
        self, page: Context, macro: Macro, table: Table | Lesson, *document: Document
    ) -> Markup:
        """Return what a macro makes of a table; a school's own may make more of an aircraft."""

        def made() -> Markup:
            return Markup(macro(table, *document))

        if not self.alike:
            return made()
        return self._kept(page, macro.name, lambda changed: made(), table, *document)

    def _kept(
        self,
        page: Context,
        name: str,
        make: Callable[[frozenset[str]], Markup],
        table: Table | Lesson,
        document: Document | None = None,
    ) -> Markup:
        """Return what is made of a table where a page stands, and tell the page what it linked."""
        seen = page["seen"]
        before = frozenset(seen)
        copied = (document.head.papers, Same(document.given)) if document else ()
        changed = frozenset[str]()
        if document and isinstance(table, Table):
            changed = changed_in(document, table)
        made, linked = self._made.of(
            table,
            lambda: (make(changed), seen - before),
            name,
            copied,
            changed,
            page["root"],
            page["switched"],
            before,
        )
        seen.update(linked)
        return made


def css(words: str) -> str:
    r"""Return words as a string of CSS, which no word in them can end.

    Examples
    --------
    >>> print(css("ZZ-DUA; economy' \""))
    "ZZ\2d DUA\3b  economy\27  \22 "
    """
    shown = (one if one.isalnum() or one == " " else f"\\{ord(one):x} " for one in words)
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

"""The frame of every page to print: it asks for nothing from elsewhere, runs nothing, and bears a seal."""

from __future__ import annotations

import re
from hashlib import sha256
from html import escape

from .palette import FAINT, INK, PAPER

__all__ = ["printed_page", "untouched"]

STYLE = f"""
body {{ margin: 24px auto; max-width: 900px; padding: 0 16px; color: {INK}; background: {PAPER};
  font: 15px/1.45 system-ui, -apple-system, "Segoe UI", "DejaVu Sans", sans-serif }}
h1 {{ margin: 0 0 8px; font-size: 24px }}
dl {{ display: grid; grid-template-columns: max-content 1fr; gap: 2px 16px; margin: 0 0 14px }}
dt {{ color: {FAINT} }}
dd {{ margin: 0 }}
table {{ border-collapse: collapse; width: 100%; margin: 0 0 14px }}
th, td {{ padding: 5px 10px; text-align: left; vertical-align: top; border-bottom: 1px solid {FAINT} }}
p {{ margin: 0 0 8px }}
tr {{ break-inside: avoid }}
@media print {{ body {{ margin: 0; padding: 0; max-width: none }} }}
"""
SEAL = re.compile(r'<meta name="seal" content="([0-9a-f]{64})">\n')


def printed_page(title: str, style: str, body: str) -> str:
    """The page. title: is escaped, and the heading too; style: CSS beside that of all pages; body: HTML, escaped."""
    top = '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
    rest = (
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f"<title>{escape(title)}</title>\n<style>{STYLE}{style}</style>\n</head>\n<body>\n<main>\n"
        f"<h1>{escape(title)}</h1>\n{body}\n</main>\n</body>\n</html>\n"
    )
    return f'{top}<meta name="seal" content="{_digest(top + rest)}">\n{rest}'


def untouched(text: str) -> bool:
    """Whether this is a page of ours that nobody changed since."""
    seal = SEAL.search(text)
    return seal is not None and seal[1] == _digest(text[: seal.start()] + text[seal.end() :])


def _digest(text: str) -> str:
    return sha256(text.encode("utf-8")).hexdigest()

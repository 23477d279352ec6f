"""How blocks become HTML: the template environment."""

from collections.abc import Iterable

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from generator.document.blocks import Block
from generator.document.files import template_folder


def environment(web: bool) -> Environment:
    """The template environment for the screen or for print: strict, escaping, without any logic of ours but `web`."""
    made = Environment(
        loader=FileSystemLoader(template_folder()),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        auto_reload=False,
    )
    made.globals["web"] = web
    return made


def rendered(blocks: Iterable[Block], env: Environment) -> Markup:
    """Blocks as HTML, one after another."""
    return Markup("").join(Markup(env.get_template(f"blocks/{b.template}.html").render(b=b)) for b in blocks)

"""Two examples, one of them private, published into a folder of the test's own."""

import pathlib
import shutil
import subprocess
import tempfile


def publish(case, *words):
    """The folder that holds `site`; it lives as long as the class of tests `case`."""
    holder = tempfile.TemporaryDirectory()
    case.addClassCleanup(holder.cleanup)
    folder = pathlib.Path(holder.name)
    for name in ("slack-water", "pocket"):
        shutil.copy(case.examples / f"{name}.stave", folder)
    subprocess.run([case.stave, "publish", "slack-water.stave", "--private", "pocket.stave",
                    "--out", "site", "--svg", *words],
                   cwd=folder, check=True, capture_output=True)
    return folder


def token(folder):
    """Of the private address."""
    return next((folder / "site/private").iterdir()).name

"""Where a lake lies: a folder, or any place that pyarrow's filesystems reach, such as S3-compatible storage."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from pyarrow import ArrowInvalid, ArrowNotImplementedError
from pyarrow import fs as arrow_fs

from eol.errors import EngineError, StoreError

_CREDENTIALS = re.compile(r"//[^/@]*@")


@dataclass(frozen=True, slots=True)
class Place:
    """The root of a lake. Paths are given below it, with `/` between.

    `local` is the folder where it is one, else None; `files` reaches it; `name` is what the caller wrote, a
    key in it left out.
    """

    name: str
    local: Path | None
    root: str
    files: arrow_fs.FileSystem

    def full(self, path: str) -> str:
        """Return a path as `files` takes it."""
        return f"{self.root}/{path}"

    def read_text(self, path: str) -> str | None:
        """Return the text of a small file, None where there is none."""
        try:
            with self.files.open_input_stream(self.full(path)) as stream:
                return bytes(stream.read()).decode()
        except FileNotFoundError:
            return None
        except OSError as error:
            raise self._unreachable(error) from error

    def write_text(self, path: str, text: str) -> None:
        """Write a small file whole or not at all: a reader sees the old or the new one."""
        self._in_folder(path)
        if self.local is None:
            # An object appears when its upload is closed, whole.
            with self.files.open_output_stream(self.full(path)) as stream:
                stream.write(text.encode())
            return
        target = self.local / path
        beside = target.with_name(f"_{target.name}.{os.getpid()}.tmp")
        beside.write_text(text, encoding="utf-8")
        settle(beside)
        beside.replace(target)

    def move(self, path: str, target: str) -> None:
        """Put a file in the place of another, at once; nothing where it was put there before."""
        self._in_folder(target)
        try:
            if self.local is None:
                self.files.copy_file(self.full(path), self.full(target))
                self.files.delete_file(self.full(path))
            else:
                (self.local / path).replace(self.local / target)
        except FileNotFoundError:
            if not self.present([target]):
                raise

    def remove(self, path: str) -> None:
        """Remove a file; nothing where there is none."""
        with suppress(FileNotFoundError):
            self.files.delete_file(self.full(path))

    def clear(self, folder: str) -> None:
        """Remove a folder with all in it; nothing where there is none."""
        if self.files.get_file_info(self.full(folder)).type is not arrow_fs.FileType.NotFound:
            self.files.delete_dir(self.full(folder))

    def listed(self, folder: str) -> tuple[str, ...]:
        """Return the files in a folder by name, sorted."""
        selector = arrow_fs.FileSelector(self.full(folder), allow_not_found=True)
        try:
            found = self.files.get_file_info(selector)
        except OSError as error:
            raise self._unreachable(error) from error
        return tuple(sorted(info.base_name for info in found if info.is_file))

    def present(self, paths: Iterable[str]) -> frozenset[str]:
        """Return those of some files that are there."""
        asked = list(paths)
        found = self.files.get_file_info([self.full(path) for path in asked])
        return frozenset(path for path, info in zip(asked, found, strict=True) if info.is_file)

    def open_output(self, path: str) -> arrow_fs.NativeFile:
        """Open a file for writing."""
        self._in_folder(path)
        return self.files.open_output_stream(self.full(path))

    def _in_folder(self, path: str) -> None:
        if self.local is not None:
            (self.local / path).parent.mkdir(parents=True, exist_ok=True)

    def _unreachable(self, error: OSError) -> StoreError:
        return StoreError(
            f"the lake cannot be reached: {error}",
            where=self.name,
            hint="See that the address is right and that you may read there.",
        )


def open_place(lake: str | Path) -> Place:
    """Find a lake by its folder or URI; whether anything lies there is not asked.

    Args:
        lake: a folder, or a URI that pyarrow knows, such as
            `s3://bucket/lake?endpoint_override=http://127.0.0.1:5000`.

    Raises:
        EngineError: no filesystem of pyarrow knows such a URI.
    """
    text = str(lake)
    if "://" not in text:
        folder = Path(text).absolute()
        return Place(text, folder, folder.as_posix(), arrow_fs.LocalFileSystem())
    name = _CREDENTIALS.sub("//", text)
    try:
        files, root = arrow_fs.FileSystem.from_uri(text)
    except (ArrowInvalid, ArrowNotImplementedError) as error:
        raise EngineError(
            f"this is no place for a lake: {error}",
            where=name,
            hint="Name a folder, or a URI such as s3://bucket/lake.",
        ) from error
    local = Path(root) if isinstance(files, arrow_fs.LocalFileSystem) else None
    return Place(name, local, root.rstrip("/"), files)


def settle(path: Path) -> None:
    """Bring a written file to the disk before its name is given away."""
    with path.open("rb") as file:
        os.fsync(file.fileno())

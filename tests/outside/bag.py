"""Checks a bag by RFC 8493 (BagIt 1.0; drafts as far as they agree), or makes one. Python's standard library alone, and nothing of portrait-gate.

    bag.py check FOLDER...   prints a line of JSON for each: {"bag", "problems"}
    bag.py make FOLDER       makes a bag of some files with odd names
"""

import hashlib
import json
import os
import re
import sys
from urllib.parse import quote

DECLARATION = re.compile(rb"BagIt-Version: (\d+\.\d+)\r?\n?Tag-File-Character-Encoding: (\S+)(\r?\n)?")


def read(folder, name):
    with open(os.path.join(folder, name), "rb") as file:
        return file.read()


def walk(folder):
    for around, _, names in os.walk(folder):
        for name in names:
            yield os.path.relpath(os.path.join(around, name), folder).replace(os.sep, "/")


def decoded(path):
    # 2.1.3: only CR, LF and the percent sign itself are encoded.
    return re.sub("%(0A|0D|25)", lambda found: chr(int(found[1], 16)), path, flags=re.I)


def lines(folder, name, encoding):
    return re.split("\r\n|\r|\n", read(folder, name).decode(encoding).removeprefix(chr(0xFEFF)))


def leads_out(path):
    return path.startswith(("/", "\\", "~", "%")) or ".." in re.split(r"[/\\]", path) or re.match("[A-Za-z]:", path)


def entries(folder, manifest, encoding, problems):
    """Path to checksum."""
    listed = {}
    for line in lines(folder, manifest, encoding):
        if not line.strip():
            continue
        found = re.fullmatch(r"([0-9A-Fa-f]+)[ \t]+\*?(.+)", line)
        if not found:
            problems.append(f"{manifest}: not a line of a manifest: {line}")
            continue
        path = re.sub(r"^\./", "", decoded(found[2]))
        if leads_out(path):
            problems.append(f"{manifest}: {path} leads out of the bag")
            continue
        if path in listed:
            problems.append(f"{manifest}: {path} is listed twice")
        listed[path] = found[1].lower()
    return listed


def check(folder):
    problems = []
    files = set(walk(folder))
    if "bagit.txt" not in files:
        return ["bagit.txt is missing"]
    declared = DECLARATION.fullmatch(read(folder, "bagit.txt"))
    if not declared or declared[1] not in (b"0.93", b"0.94", b"0.95", b"0.96", b"0.97", b"1.0"):
        return ["bagit.txt is not a declaration"]
    if not os.path.isdir(os.path.join(folder, "data")):
        problems.append("data/ is missing")
    encoding = declared[2].decode("ascii")
    payload = {file for file in files if file.startswith("data/")}
    manifests = sorted(file for file in files if re.fullmatch(r"(tag)?manifest-[a-z0-9]+\.txt", file))
    if not any(name.startswith("manifest-") for name in manifests):
        problems.append("there is no payload manifest")
    seen = set()
    for name in manifests:
        of_payload = name.startswith("manifest-")
        listed = entries(folder, name, encoding, problems)
        seen |= set(listed)
        for path, checksum in listed.items():
            if of_payload and not path.startswith("data/"):
                problems.append(f"{name}: {path} is no payload")
            elif path not in files:
                problems.append(f"{name}: {path} is missing")
            elif hashlib.new(name.split("-")[1][:-4], read(folder, path)).hexdigest() != checksum:
                problems.append(f"{name}: {path} has changed")
        # 2.1.3 of 1.0: every manifest lists every payload file; before, one of them did.
        if of_payload and declared[1] == b"1.0":
            problems += [f"{name}: {path} is not listed" for path in sorted(payload - set(listed))]
    if "fetch.txt" in files:
        for path in [line.split(None, 2)[2] for line in lines(folder, "fetch.txt", encoding) if line.strip()]:
            if leads_out(decoded(path)):
                problems.append(f"fetch.txt: {path} leads out of the bag")
    problems += [f"{path} is in no manifest" for path in sorted(payload - seen)]
    return problems + oxum(folder, files, payload)


def oxum(folder, files, payload):
    if "bag-info.txt" not in files:
        return []
    stated = re.search(rb"^Payload-Oxum: *(\d+)\.(\d+)\s*$", read(folder, "bag-info.txt"), re.M)
    size = sum(os.path.getsize(os.path.join(folder, path)) for path in payload)
    if stated and (int(stated[1]), int(stated[2])) != (size, len(payload)):
        return ["bag-info.txt: Payload-Oxum is another"]
    return []


def make(folder):
    names = ["print/Lund-Bjørn.jpg", "web/100% sure.jpg", "web/two\nlines.jpg", "empty"]
    for index, name in enumerate(names):
        path = os.path.join(folder, "data", name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "wb") as file:
            file.write(bytes(1000 * index))
    write(folder, "bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
    write(folder, "bag-info.txt", f"Payload-Oxum: {sum(1000 * i for i in range(len(names)))}.{len(names)}\n")
    write(folder, "manifest-sha512.txt", manifest(folder, [f"data/{name}" for name in names]))
    write(folder, "tagmanifest-sha512.txt", manifest(folder, ["bagit.txt", "bag-info.txt", "manifest-sha512.txt"]))


def manifest(folder, files):
    encoded = lambda path: "".join(quote(one) if one in "%\r\n" else one for one in path)
    return "".join(f"{hashlib.sha512(read(folder, file)).hexdigest()}  {encoded(file)}\n" for file in files)


def write(folder, name, text):
    with open(os.path.join(folder, name), "w", encoding="utf-8", newline="") as file:
        file.write(text)


if sys.argv[1] == "make":
    make(sys.argv[2])
else:
    for bag in sys.argv[2:]:
        print(json.dumps({"bag": bag, "problems": check(bag)}))

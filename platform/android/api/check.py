"""Holds a package's byte code against what Android publishes: check.py DEXDUMP LIST-29 LIST-34 JAR-23

DEXDUMP is what `dexdump -d -a` tells of the package. Each class, field and method of Android that it
names must be in the lists of Android 10 and 14. What Android 6 does not have, which is the newest
before the least version that the package installs on, must be guarded: the method that names it reads
Build.VERSION.SDK_INT, or is one that only a newer Android calls.
"""

import re
import sys
import zipfile

import class_file
import published


class Published:
    """A published list, from its text."""

    def __init__(self, level, path, fallback=None):
        self.level, self.fallback = level, fallback
        self.classes = published.read(path)
        self.packages = {name.rpartition("/")[0] for name in self.classes}

    def find(self, name):
        """Superclass, interfaces, fields and methods of a class; none where there is no such class."""
        one = self.classes.get(name)
        if one:
            fields = {(each.name, each.descriptor) for each in one.fields}
            return one.superclass, one.interfaces, fields, {(each.name, each.descriptor) for each in one.methods}
        # Packages that are updated apart from the system are in no list of theirs.
        if self.fallback and name.rpartition("/")[0] not in self.packages:
            return self.fallback.find(name)
        return None


class Compiled:
    """The classes of a published version, as a jar."""

    def __init__(self, level, path):
        self.level, self.jar, self.known = level, zipfile.ZipFile(path), {}

    def find(self, name):
        if name not in self.known:
            try:
                _, parent, above, fields, methods = class_file.read(self.jar.read(f"{name}.class"))
                self.known[name] = parent, above, fields, methods
            except KeyError:
                self.known[name] = None
        return self.known[name]


class Method:
    """A method of the package, and what its code and its own type name."""

    def __init__(self, owner, name):
        self.owner, self.name, self.descriptor, self.uses = owner, name, "", []


TYPE = re.compile(r"L([\w/$-]+);")
FIELD = re.compile(r"\b[is](?:get|put)[\w-]* .*?(\[*L?[\w/$-]+;?)\.([\w$-]+):(\S+) // field@")
INVOKE = re.compile(r"\binvoke-[\w/-]+ \{[^}]*\}, (\[*L?[\w/$-]+;?)\.([\w$<>-]+):(\(\S*\)\S+) // method@")
NAMED = re.compile(r"\b(?:new-instance|check-cast|const-class|instance-of|new-array|filled-new-array)\S* .*?(\[*L[\w/$-]+;) // type@")


def read_dump(path):
    """The package's own classes (as `find` gives them) and its methods."""
    own, methods, name, method, section = {}, [], None, None, ""
    for line in open(path, encoding="utf-8", errors="replace"):
        stripped = line.strip()
        if match := re.match(r"Class descriptor  : 'L(.*);'", stripped):
            name, method = match[1], None
            own[name] = [None, [], set(), set()]
        elif match := re.match(r"Superclass        : 'L(.*);'", stripped):
            own[name][0] = match[1]
        elif match := re.match(r"(Interfaces|Static fields|Instance fields|Direct methods|Virtual methods) ", stripped):
            section = match[1]
        elif match := re.match(r"#\d+\s+: 'L(.*);'", stripped):
            own[name][1].append(match[1])
        elif match := re.match(r"name\s+: '(.*)'", stripped):
            member = match[1]
        elif match := re.match(r"type\s+: '(.*)'", stripped):
            fields = section.endswith("fields")
            own[name][2 if fields else 3].add((member, match[1]))
            method = Method(name, member)
            method.descriptor = match[1]
            method.uses = [("class", each) for each in TYPE.findall(match[1])]
            methods.append(method)
        elif method and (match := INVOKE.search(line)):
            method.uses.append(("method", match[1], match[2], match[3]))
        elif method and (match := FIELD.search(line)):
            method.uses.append(("field", match[1], match[2], match[3]))
        elif method and (match := NAMED.search(line)):
            method.uses += [("class", each) for each in TYPE.findall(match[1])]
        elif method and (match := re.match(r"L([\w/$-]+); -> 0x", stripped)):
            method.uses.append(("class", match[1]))
    # What a class is made of belongs to no method.
    for name, (parent, above, _, _) in own.items():
        head = Method(name, "its head")
        head.uses = [("class", each) for each in [parent, *above]]
        methods.append(head)
    return own, methods


def has(version, own, owner, kind, name, descriptor):
    """Whether a class, or one above it, has a member."""
    found = own.get(owner) or version.find(owner)
    if found is None:
        return False
    if (name, descriptor) in found[2 if kind == "field" else 3]:
        return True
    above = [each for each in [found[0], *found[1]] if each]
    return any(has(version, own, each, kind, name, descriptor) for each in above)


def there(version, own, use):
    """Whether a version has what is used."""
    if use[0] == "class":
        return use[1] in own or version.find(use[1]) is not None
    owner = "java/lang/Object" if use[1].startswith("[") else use[1][1:-1]
    if use[2] == "clone" and use[1].startswith("["):
        return True
    return has(version, own, owner, *use[:1], use[2], use[3])


def called_by_newer_only(method, own, oldest, newer):
    """Whether the method overrides one of Android's that the oldest version does not have."""
    above = own[method.owner][0]
    inherits = lambda version: has(version, own, above, "method", method.name, method.descriptor)
    return not inherits(oldest) and any(inherits(version) for version in newer)


def main(dump, list_29, list_34, jar_23):
    level_29 = Published(29, list_29)
    versions = [level_29, Published(34, list_34, level_29)]
    oldest = Compiled(23, jar_23)
    own, methods = read_dump(dump)
    wrong, guarded, seen = [], set(), set()
    for method in methods:
        guard = ("field", "Landroid/os/Build$VERSION;", "SDK_INT", "I") in method.uses
        guard = guard or called_by_newer_only(method, own, oldest, versions)
        for use in method.uses:
            what = use[1] if use[0] == "class" else f"{use[1]}.{use[2]}:{use[3]}"
            seen.add(what)
            for version in versions:
                if not there(version, own, use):
                    wrong.append(f"{method.owner}.{method.name}: {what} is not in Android's interface {version.level}")
            if not there(oldest, own, use):
                if guard:
                    guarded.add(what)
                else:
                    wrong.append(f"{method.owner}.{method.name}: {what} is newer than Android's interface 23, and not guarded")
    if len(own) < 5 or len(seen) < 50:
        wrong.append(f"only {len(own)} classes and {len(seen)} names were read: the reader is broken")
    if wrong:
        sys.exit("\n".join(dict.fromkeys(wrong)))
    print(f"{len(own)} classes name {len(seen)} classes, fields and methods: all in Android's interfaces 29 and 34;")
    print(f"newer than 23 and guarded: {', '.join(sorted(guarded)) or 'none'}")


if __name__ == "__main__":
    main(*sys.argv[1:])

"""Reads the list that Android publishes of its interface for apps (current.txt, signature format 2.0)."""

import re
from dataclasses import dataclass, field

PRIMITIVES = {"void": "V", "boolean": "Z", "byte": "B", "char": "C", "short": "S", "int": "I", "long": "J", "float": "F", "double": "D"}


@dataclass
class Member:
    """A field (its descriptor is a type) or a method (its descriptor ends with what it returns)."""

    name: str
    descriptor: str
    signature: str
    modifiers: frozenset
    constant: object = None
    throws: tuple = ()
    varargs: bool = False


@dataclass
class Class:
    """A class by its name in byte code, such as android/webkit/WebChromeClient$FileChooserParams."""

    name: str
    kind: str  # class, interface, enum, @interface
    modifiers: frozenset
    superclass: str | None
    interfaces: list
    signature: str
    runtime_annotation: bool = False
    fields: list = field(default_factory=list)
    methods: list = field(default_factory=list)


ANNOTATION = re.compile(r"@(?!interface\b)[\w.]+(\((?:[^()\"]|\"(?:[^\"\\]|\\.)*\"|\([^()]*\))*\))?\s*")
MODIFIERS = {
    "public", "protected", "static", "final", "abstract", "default", "synchronized", "native", "transient", "volatile", "strictfp", "sealed", "deprecated",
}


def binary(dotted):
    """A class's name in byte code: packages begin with a small letter, classes with a capital."""
    parts = dotted.split(".")
    if len(parts) == 1 and parts[0] not in PRIMITIVES:
        return "java/lang/" + dotted
    for at, part in enumerate(parts):
        if part[0].isupper():
            return "/".join(parts[:at] + ["$".join(parts[at:])])
    return "/".join(parts)


class Types:
    """A reader of types in a text, with the type variables that are known there."""

    def __init__(self, text, variables):
        self.tokens = re.findall(r"[\w$.]*[\w$]|\.\.\.|[<>\[\],?&.]", text)
        self.at = 0
        self.variables = variables

    def peek(self):
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    def take(self):
        self.at += 1
        return self.tokens[self.at - 1]

    def one(self):
        """The descriptor and the generic signature of the next type, and whether it ends with dots."""
        name = self.take()
        if name in PRIMITIVES:
            erased = generic = PRIMITIVES[name]
        elif name in self.variables:
            erased, generic = self.variables[name], f"T{name};"
        else:
            inner = binary(name)
            generic = "L" + inner + self.arguments()
            # Outer<A>.Inner
            while self.peek() and self.peek().startswith(".") and self.peek() != "...":
                nested = self.take().strip(".") or self.take()
                inner += "$" + nested
                generic += "." + nested + self.arguments()
            erased, generic = f"L{inner};", generic + ";"
        dots = False
        while self.peek() in ("[", "..."):
            dots = self.take() == "..."
            if not dots:
                self.take()
            erased, generic = "[" + erased, "[" + generic
        return erased, generic, dots

    def arguments(self):
        if self.peek() != "<":
            return ""
        self.take()
        found = ""
        while self.peek() != ">":
            if self.peek() == ",":
                self.take()
            elif self.peek() == "?":
                self.take()
                bound = self.peek()
                if bound in ("extends", "super"):
                    self.take()
                    found += ("+" if bound == "extends" else "-") + self.one()[1]
                else:
                    found += "*"
            else:
                found += self.one()[1]
        self.take()
        return f"<{found}>"


def split_top(text, separator):
    """Splits at the separator where it is in no angle brackets."""
    parts, depth, start = [], 0, 0
    for at, letter in enumerate(text):
        depth += (letter == "<") - (letter == ">")
        if letter == separator and depth == 0:
            parts.append(text[start:at])
            start = at + 1
    parts.append(text[start:])
    return [part.strip() for part in parts if part.strip()]


def closing(text):
    """Where the angle bracket that the text begins with is closed."""
    depth = 0
    for at, letter in enumerate(text):
        depth += (letter == "<") - (letter == ">")
        if depth == 0:
            return at
    raise ValueError(text)


def parameters(text, variables):
    """Type variables that are declared in brackets: their erasures, and the generic signature."""
    known = dict(variables)
    declared = split_top(text, ",")
    for one in declared:
        known[one.split()[0]] = "Ljava/lang/Object;"
    signature = ""
    for one in declared:
        name, _, bounds = one.partition(" extends ")
        signature += name
        for number, bound in enumerate(split_top(bounds, "&") or ["java.lang.Object"]):
            erased, generic, _ = Types(bound, known).one()
            if number == 0:
                known[name] = erased
            # A first bound may be an interface; the reader of a class file takes it either way.
            signature += ":" + generic
    return known, f"<{signature}>"


def modifiers_of(text):
    words = text.split()
    found = set()
    while words and words[0] in MODIFIERS:
        found.add(words.pop(0))
    return frozenset(found), " ".join(words)


def constant_of(text, kind):
    if text is None:
        return None
    if kind == "Ljava/lang/String;":
        return re.sub(r"\\u([0-9a-fA-F]{4})|\\(.)", lambda m: chr(int(m[1], 16)) if m[1] else {"n": "\n", "t": "\t", "r": "\r"}.get(m[2], m[2]), text[1:-1])
    if kind == "Z":
        return int(text == "true")
    if kind in "FD":
        special = {"(1.0": float("inf"), "(-1.0": float("-inf"), "(0.0": float("nan")}
        return special.get(text.split("/")[0].rstrip("f"), None) if text.startswith("(") else float(text.rstrip("f"))
    return int(text.rstrip("L"))


def member_of(kind, text, owner, variables):
    """A member by its line, without the word that the line begins with."""
    modifiers, rest = modifiers_of(text)
    known, generic = variables, ""
    if rest.startswith("<"):
        end = closing(rest)
        known, generic = parameters(rest[1:end], variables)
        more, rest = modifiers_of(rest[end + 1 :].strip())
        modifiers |= more
    if kind in ("field", "enum_constant"):
        declared, _, constant = rest.partition(" = ")
        kind_of, name = declared.rsplit(None, 1)
        erased, signature, _ = Types(kind_of, known).one()
        return Member(name, erased, signature, modifiers, constant_of(constant or None, erased))
    head, _, tail = rest.partition("(")
    inside, _, after = tail.rpartition(")")
    types = [Types(part, known).one() for part in split_top(inside, ",")]
    if kind == "ctor":
        name, returns = "<init>", ("V", "V", False)
    else:
        returned, name = head.rsplit(None, 1)
        returns = Types(returned, known).one()
    thrown = re.match(r"\s*throws (.*)", after)
    return Member(
        name,
        "(" + "".join(one[0] for one in types) + ")" + returns[0],
        generic + "(" + "".join(one[1] for one in types) + ")" + returns[1],
        modifiers,
        throws=tuple(binary(one) if one not in known else known[one][1:-1] for one in split_top(thrown[1], ",")) if thrown else (),
        varargs=any(one[2] for one in types),
    )


def class_of(line, package, outer_variables):
    """A class by its head, and the type variables that its members know."""
    runtime = "RetentionPolicy.RUNTIME" in line
    modifiers, rest = modifiers_of(ANNOTATION.sub("", line).strip().rstrip("{").strip())
    kind, rest = rest.split(None, 1)
    name = re.match(r"[\w.$]+", rest)[0]
    rest = rest[len(name) :].strip()
    variables, generic = dict(outer_variables), ""
    if rest.startswith("<"):
        end = closing(rest)
        variables, generic = parameters(rest[1:end], variables)
        rest = rest[end + 1 :].strip()
    supers = {"extends": [], "implements": [], "permits": []}
    word = None
    for part in split_top(rest, " "):
        if part in supers:
            word = part
        else:
            supers[word].append(Types(part.rstrip(","), variables).one())
    full = package.replace(".", "/") + "/" + name.replace(".", "$")
    flat = lambda types: [one[0][1:-1] for one in types]
    if kind in ("interface", "@interface"):
        parent = ("Ljava/lang/Object;", "Ljava/lang/Object;")
        above = supers["extends"] + supers["implements"]
        if kind == "@interface":
            above = above + [("Ljava/lang/annotation/Annotation;",) * 2]
    elif kind == "enum":
        parent, above = ("Ljava/lang/Enum;", f"Ljava/lang/Enum<L{full};>;"), supers["implements"]
    else:
        parent, above = (supers["extends"] or [("Ljava/lang/Object;",) * 2])[0], supers["implements"]
    signature = generic + parent[1] + "".join(one[1] for one in above)
    superclass = None if full == "java/lang/Object" else parent[0][1:-1]
    return Class(full, kind, modifiers, superclass, flat(above), signature, runtime), variables


def read(path):
    """All classes of a list, by name."""
    classes, package, current, variables, known = {}, "", None, {}, {}
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            if line.startswith("package "):
                package = re.search(r"[\w.]+", ANNOTATION.sub("", line[8:]))[0]
            elif line.startswith("    ") and current:
                text = re.sub(r";\s*(//.*)?$", "", line.strip())
                kind, _, rest = ANNOTATION.sub("", text).partition(" ")
                if kind in ("field", "enum_constant"):
                    current.fields.append(member_of(kind, rest, current, variables))
                elif kind in ("ctor", "method"):
                    current.methods.append(member_of(kind, rest, current, variables))
            elif line.startswith("  ") and line.rstrip().endswith("{"):
                outer = re.search(r"\b(?:class|interface|enum) ([\w.]+)\.\w+", line)
                inherited = known.get(f"{package}.{outer[1]}", {}) if outer and " static " not in line else {}
                current, variables = class_of(line, package, inherited)
                known[f"{package}.{current.name.rsplit('/', 1)[1].replace('$', '.')}"] = variables
                classes[current.name] = current
    return classes

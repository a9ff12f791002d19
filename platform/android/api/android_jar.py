"""Makes an android.jar to compile against out of published lists: android_jar.py OUT.jar LIST...

Where two lists have a class, the later one's is taken.

Its classes have every public name and nothing behind it, as those of the SDK's have. What belongs
to Java itself (java.*) is left to the compiler, which knows it by its release.
"""

import dataclasses
import sys
import zipfile

import class_file
import published


def main(out, *lists):
    classes = {}
    for each in lists:
        classes.update(published.read(each))
    # A nested class is known by its own name, its outer classes' and those that it mentions; all of a
    # family are named in each of it, which is enough for compilers.
    families = {}
    for name in classes:
        if "$" in name:
            families.setdefault(name.partition("$")[0], []).append(name)
    flags = {name: class_file.inner_flags(one) for name, one in classes.items()}
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as jar:
        for name, one in sorted(classes.items()):
            if name.startswith("java/"):
                continue
            if one.kind == "enum":
                add_enum_methods(one)
            if one.kind == "class" and "abstract" not in one.modifiers:
                add_unlisted(one, classes)
            # Other families' nested classes that its signatures name.
            named = set(families.get(name.partition("$")[0], []))
            for member in one.fields + one.methods:
                for part in member.descriptor.replace("(", ";").replace(")", ";").split(";"):
                    part = part.lstrip("[ZBCSIJFDV")
                    if part.startswith("L") and "$" in part and part[1:] in flags:
                        named.add(part[1:])
            nested = sorted((each, flags[each]) for each in named)
            jar.writestr(zipfile.ZipInfo(f"{name}.class", (1980, 1, 1, 0, 0, 0)), class_file.stub(one, nested))


def add_unlisted(one, classes):
    """The lists leave out what a class has only in place of an abstract method above it."""
    have, abstract, above = {(each.name, each.descriptor) for each in one.methods}, [], classes.get(one.superclass)
    while above:
        for each in above.methods:
            key = (each.name, each.descriptor)
            if key not in have and "abstract" in each.modifiers:
                abstract.append(each)
            have.add(key)
        above = classes.get(above.superclass)
    for each in abstract:
        one.methods.append(dataclasses.replace(each, modifiers=each.modifiers - {"abstract"}))


def add_enum_methods(one):
    static = frozenset({"public", "static"})
    have = {method.name for method in one.methods}
    if "values" not in have:
        one.methods.append(published.Member("values", f"()[L{one.name};", f"()[L{one.name};", static))
    if "valueOf" not in have:
        one.methods.append(published.Member("valueOf", f"(Ljava/lang/String;)L{one.name};", f"(Ljava/lang/String;)L{one.name};", static))


if __name__ == "__main__":
    main(*sys.argv[1:])

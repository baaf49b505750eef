package foilproof.bench;

import foilproof.geom.Dimension;
import foilproof.geom.Quantity;
import foilproof.geom.QuantityFormatException;
import foilproof.source.SourceSpan;
import foilproof.source.Spelling;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Applies {@code KEY=VALUE} of the command line to the tree of a job: dotted paths, tools, keep-outs and nets by name,
 * sides and programs by number from 1; and takes out the what-ifs, which are no values of the job.
 */
final class Settings {
    private static final String SHOWN = "--set";
    private static final List<String> BY_NAME = List.of("tool", "keep_out", "net");
    private static final List<String> BY_NUMBER = List.of("side", "program", "join");

    private final Problems problems;
    private final Map<String, Double> zErrorMm = new TreeMap<>();
    private final Map<Integer, String> inCollet = new TreeMap<>();
    private double bowMm;

    Settings(Problems problems) {
        this.problems = problems;
    }

    /** One setting, cut at its first equals sign outside quotes. */
    private record Setting(String file, List<String> path, String value, SourceSpan key, SourceSpan at) {}

    /** Applies all settings in order to the tree. */
    void apply(Node.Tab root, List<String> settings) {
        for (String text : settings) {
            Setting setting = cut(text);
            if (setting != null && !whatIf(setting)) {
                set(root, setting);
            }
        }
    }

    /** The value set for a key of the root, or null: the shop file must be known before the rest is merged. */
    @Nullable
    String rootValue(List<String> settings, String key) {
        String found = null;
        for (String text : settings) {
            if (text.startsWith(key + "=")) {
                found = unquoted(text.substring(key.length() + 1).strip());
            }
        }
        return found;
    }

    WhatIf whatIf(List<String> toolNames) {
        for (String name : zErrorMm.keySet()) {
            checkTool(toolNames, name, "z_error." + name);
        }
        inCollet.forEach((number, name) -> checkTool(toolNames, name, "in_collet." + number));
        return new WhatIf(zErrorMm, bowMm, inCollet);
    }

    private void checkTool(List<String> toolNames, String name, String key) {
        if (!toolNames.contains(name)) {
            problems.add(
                    SourceSpan.ofFile(SHOWN + " " + key),
                    "unknown-tool",
                    "There is no tool \"" + Keys.shortened(name) + "\".",
                    "Tools of the job: " + String.join(", ", toolNames) + ".",
                    Spelling.nearest(name, toolNames));
        }
    }

    private @Nullable Setting cut(String text) {
        List<String> path = new ArrayList<>();
        StringBuilder part = new StringBuilder();
        char quote = 0;
        int equals = -1;
        for (int i = 0; i < text.length() && equals < 0; i++) {
            char c = text.charAt(i);
            if (quote != 0) {
                if (c == quote) {
                    quote = 0;
                } else {
                    part.append(c);
                }
            } else if (c == '"' || c == '\'') {
                quote = c;
            } else if (c == '.') {
                path.add(part.toString().strip());
                part.setLength(0);
            } else if (c == '=') {
                equals = i;
            } else {
                part.append(c);
            }
        }
        path.add(part.toString().strip());
        String file = SHOWN + " "
                + Keys.shortened(equals < 0 ? text : text.substring(0, equals).strip());
        problems.knowLine(file, text);
        if (equals < 0 || path.contains("")) {
            problems.add(
                    SourceSpan.ofLine(file, 1),
                    "bad-setting",
                    "A setting that is not KEY=VALUE.",
                    "Expected a dotted key and a value, such as tool.engraver.tip_width=\"0.13 mm\".",
                    null);
            return null;
        }
        int start = equals + 1;
        while (start < text.length() && text.charAt(start) == ' ') {
            start++;
        }
        SourceSpan key = new SourceSpan(file, 1, 1, equals + 1);
        SourceSpan at = new SourceSpan(file, 1, start + 1, Math.max(text.length(), start + 1) + 1);
        return new Setting(file, path, text.substring(start).strip(), key, at);
    }

    private boolean whatIf(Setting setting) {
        List<String> path = setting.path();
        if (path.size() == 1 && path.get(0).equals("bow")) {
            bowMm = length(setting);
            return true;
        }
        if (path.get(0).equals("z_error")) {
            if (path.size() == 2) {
                zErrorMm.put(path.get(1), length(setting));
            } else {
                problems.add(
                        setting.key(),
                        "bad-setting",
                        "A Z error needs the name of a tool.",
                        "Expected z_error.NAME=\"0.05 mm\", + = really deeper.",
                        null);
            }
            return true;
        }
        if (path.get(0).equals("in_collet")) {
            if (path.size() == 2 && path.get(1).matches("[0-9]{1,5}")) {
                inCollet.put(Integer.parseInt(path.get(1)), unquoted(setting.value()));
            } else {
                problems.add(
                        setting.key(),
                        "bad-setting",
                        "in_collet needs the number of a tool.",
                        "Expected in_collet.1=NAME: this tool is in the collet where the program calls for 1.",
                        null);
            }
            return true;
        }
        return false;
    }

    private double length(Setting setting) {
        try {
            return Quantity.parse(unquoted(setting.value()), Dimension.LENGTH).value();
        } catch (QuantityFormatException e) {
            problems.add(setting.at(), "bad-quantity", e.problem() + ".", e.expected(), e.nearestUnit());
            return 0;
        }
    }

    private void set(Node.Tab root, Setting setting) {
        Node.Tab at = root;
        List<String> path = setting.path();
        int i = 0;
        while (i < path.size() - 1) {
            String key = path.get(i);
            boolean spreadTool = i > 0 && path.get(i - 1).equals("spread");
            Node next = at.get(key);
            if (!spreadTool && (BY_NAME.contains(key) || BY_NUMBER.contains(key))) {
                if (i + 2 >= path.size() && !(next instanceof Node.Tab)) {
                    problems.add(
                            setting.key(),
                            "bad-setting",
                            "The setting stops at a table.",
                            "Expected a key of it, such as " + key + "." + path.get(i + 1) + ".KEY.",
                            null);
                    return;
                }
                at = item(at, key, path.get(i + 1), setting);
                i += 2;
            } else {
                if (next == null) {
                    Node.Tab made = new Node.Tab(setting.key());
                    at.put(key, made, setting.key());
                    next = made;
                }
                at = next instanceof Node.Tab tab ? tab : null;
                i++;
            }
            if (at == null) {
                return;
            }
        }
        put(at, path.get(path.size() - 1), setting);
    }

    /** Sets a leaf; the two ways to say the same thing drop each other. */
    private void put(Node.Tab at, String key, Setting setting) {
        Node old = at.get(key);
        boolean listOfTables =
                old instanceof Node.Arr arr && arr.items().stream().anyMatch(Node.Tab.class::isInstance);
        if (old instanceof Node.Tab || listOfTables) {
            problems.add(
                    setting.key(),
                    "bad-setting",
                    "\"" + Keys.shortened(key) + "\" is a table.",
                    "Expected one of its keys: " + Keys.shortened(String.join(".", setting.path())) + ".KEY.",
                    null);
            return;
        }
        if (setting.value().isEmpty()) {
            problems.add(setting.key(), "bad-setting", "The value is empty.", "Expected KEY=VALUE.", null);
            return;
        }
        at.put(key, value(setting), setting.key());
        if (!unquoted(setting.value()).equals("unknown")) {
            dropOther(at, key, "tip_width", "tip_radius");
        }
    }

    static void dropOther(Node.Tab at, String key, String one, String two) {
        if (key.equals(one)) {
            at.remove(two);
        } else if (key.equals(two)) {
            at.remove(one);
        }
    }

    private Node value(Setting setting) {
        String text = setting.value();
        char first = text.charAt(0);
        if (first == '[' || first == '"' || first == '\'' || first == '{') {
            Node node = TomlLoader.value(text, setting.file(), setting.at().column(), problems);
            if (node != null) {
                return node;
            }
        }
        Object plain = text;
        if (text.equals("true") || text.equals("false")) {
            plain = Boolean.valueOf(text);
        } else if (text.matches("[-+]?[0-9]{1,18}")) {
            plain = Long.valueOf(text);
        }
        return new Node.Scalar(plain, text, setting.at());
    }

    private Node.@Nullable Tab item(Node.Tab at, String key, String which, Setting setting) {
        Node node = at.get(key);
        List<Node> items = node instanceof Node.Arr arr ? arr.items() : List.of();
        if (BY_NUMBER.contains(key)) {
            boolean number = which.matches("[0-9]{1,4}");
            int index = number ? Integer.parseInt(which) : 0;
            if (index >= 1 && index <= items.size() && items.get(index - 1) instanceof Node.Tab tab) {
                return tab;
            }
            problems.add(
                    setting.key(),
                    "bad-setting",
                    "There is no " + key + " " + Keys.shortened(which) + ".",
                    items.isEmpty() ? "The job has none." : "Expected a number from 1 to " + items.size() + ".",
                    null);
            return null;
        }
        List<String> names = new ArrayList<>();
        for (Node item : items) {
            if (item instanceof Node.Tab tab
                    && tab.get("name") instanceof Node.Scalar scalar
                    && scalar.text() != null) {
                String name = String.valueOf(scalar.text());
                if (name.equals(which)) {
                    return tab;
                }
                names.add(name);
            }
        }
        if (key.equals("net")) {
            return addNet(at, items, which, setting);
        }
        problems.add(
                setting.key(),
                "unknown-tool",
                "There is no " + key + " \"" + Keys.shortened(which) + "\".",
                names.isEmpty() ? "The job has none." : "Known: " + String.join(", ", names) + ".",
                Spelling.nearest(which, names));
        return null;
    }

    /** A net need not be declared to be given a current. */
    private static Node.Tab addNet(Node.Tab at, List<Node> items, String name, Setting setting) {
        Node.Tab net = new Node.Tab(setting.key());
        net.put("name", new Node.Scalar(name, null, setting.key()), setting.key());
        List<Node> more = new ArrayList<>(items);
        more.add(net);
        at.put("net", new Node.Arr(more, setting.key()), setting.key());
        return net;
    }

    private static String unquoted(String text) {
        boolean quoted = text.length() >= 2
                && (text.charAt(0) == '"' || text.charAt(0) == '\'')
                && text.charAt(text.length() - 1) == text.charAt(0);
        return quoted ? text.substring(1, text.length() - 1) : text;
    }
}

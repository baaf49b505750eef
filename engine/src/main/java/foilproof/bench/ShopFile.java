package foilproof.bench;

import foilproof.source.Spelling;
import java.util.ArrayList;
import java.util.List;

/** Lays a job over a shop file: the job's own keys win, tools are matched by name. */
final class ShopFile {
    private static final List<String> KEYS = List.of("machine", "spread", "limits", "tool");

    private ShopFile() {}

    /** Tells whatever has no place in a shop file. */
    static void check(Node.Tab shop, Problems problems) {
        for (String key : shop.keys()) {
            if (!KEYS.contains(key)) {
                problems.add(
                        shop.keySpan(key),
                        "unknown-key",
                        "\"" + Keys.shortened(key) + "\" has no place in a shop file.",
                        "A shop file holds [machine], [spread], [limits] and [[tool]].",
                        Spelling.nearest(key, KEYS));
            }
        }
    }

    /** Fills the job with what it does not say itself. */
    static void mergeInto(Node.Tab job, Node.Tab shop) {
        for (String key : List.of("machine", "spread", "limits")) {
            Node shops = shop.get(key);
            if (shops instanceof Node.Tab from) {
                if (job.get(key) instanceof Node.Tab to) {
                    mergeTable(to, from, key.equals("spread"));
                } else if (job.get(key) == null) {
                    job.put(key, from, shop.keySpan(key));
                }
            } else if (shops != null && job.get(key) == null) {
                job.put(key, shops, shop.keySpan(key));
            }
        }
        Node tools = shop.get("tool");
        if (tools instanceof Node.Arr from) {
            mergeTools(job, from, shop);
        } else if (tools != null && job.get("tool") == null) {
            job.put("tool", tools, shop.keySpan("tool"));
        }
    }

    private static void mergeTable(Node.Tab to, Node.Tab from, boolean spread) {
        boolean ownTerms = to.get("z_touch") != null || to.get("bow") != null;
        for (String key : from.keys()) {
            Node own = to.get(key);
            Node node = from.get(key);
            if (own == null && node != null) {
                if (!(spread && key.equals("z") && ownTerms)) {
                    to.put(key, node, from.keySpan(key));
                }
            } else if (own instanceof Node.Tab inner && node instanceof Node.Tab innerFrom) {
                mergeTable(inner, innerFrom, false);
            }
        }
    }

    private static void mergeTools(Node.Tab job, Node.Arr from, Node.Tab shop) {
        if (job.get("tool") != null && !(job.get("tool") instanceof Node.Arr)) {
            return;
        }
        List<Node> tools = new ArrayList<>(job.get("tool") instanceof Node.Arr own ? own.items() : List.of());
        int ownCount = tools.size();
        for (Node node : from.items()) {
            Node.Tab same = node instanceof Node.Tab tab ? named(tools.subList(0, ownCount), tab.get("name")) : null;
            if (same != null && node instanceof Node.Tab tab) {
                mergeTool(same, tab);
            } else {
                tools.add(node);
            }
        }
        for (int i = ownCount; i < tools.size(); i++) {
            if (tools.get(i) instanceof Node.Tab tab && numberTaken(tools.subList(0, ownCount), tab.get("number"))) {
                tab.remove("number");
            }
        }
        job.put(
                "tool",
                new Node.Arr(tools, shop.keySpan("tool")),
                job.get("tool") == null ? shop.keySpan("tool") : job.keySpan("tool"));
    }

    private static void mergeTool(Node.Tab own, Node.Tab from) {
        boolean ownTip = own.get("tip_width") != null || own.get("tip_radius") != null;
        for (String key : from.keys()) {
            Node node = from.get(key);
            boolean tip = key.equals("tip_width") || key.equals("tip_radius");
            if (own.get(key) == null && node != null && !(tip && ownTip)) {
                own.put(key, node, from.keySpan(key));
            }
        }
    }

    private static Node.@org.jspecify.annotations.Nullable Tab named(
            List<Node> tools, @org.jspecify.annotations.Nullable Node name) {
        if (!(name instanceof Node.Scalar wanted)) {
            return null;
        }
        for (Node node : tools) {
            if (node instanceof Node.Tab tab
                    && tab.get("name") instanceof Node.Scalar own
                    && own.value().equals(wanted.value())) {
                return tab;
            }
        }
        return null;
    }

    private static boolean numberTaken(List<Node> tools, @org.jspecify.annotations.Nullable Node number) {
        if (!(number instanceof Node.Scalar wanted)) {
            return false;
        }
        return tools.stream()
                .anyMatch(node -> node instanceof Node.Tab tab
                        && tab.get("number") instanceof Node.Scalar own
                        && own.value().equals(wanted.value()));
    }
}

package foilproof.report;

import org.jspecify.annotations.Nullable;

/** Builds HTML text; everything that comes from outside is escaped. */
final class Html {
    private final StringBuilder out = new StringBuilder(32 * 1024);

    /** Markup as it is. */
    Html raw(String markup) {
        out.append(markup);
        return this;
    }

    /** Text, escaped. */
    Html text(String text) {
        out.append(escape(text));
        return this;
    }

    /** An element with text. */
    Html element(String name, String text) {
        return raw("<" + name + ">").text(text).raw("</" + name.split(" ", 2)[0] + ">");
    }

    /** A table's head. */
    Html head(String... columns) {
        raw("<table><thead><tr>");
        for (String column : columns) {
            boolean number = column.startsWith("#");
            raw(number ? "<th class=\"n\" scope=\"col\">" : "<th scope=\"col\">");
            text(number ? column.substring(1) : column).raw("</th>");
        }
        return raw("</tr></thead><tbody>\n");
    }

    /** A table's row; a cell that begins with {@code #} is a number; null is shown as a dash. */
    Html row(@Nullable String... cells) {
        raw("<tr>");
        for (String cell : cells) {
            boolean number = cell != null && cell.startsWith("#");
            raw(number ? "<td class=\"n\">" : "<td>");
            text(cell == null ? "\u2013" : number ? cell.substring(1) : cell).raw("</td>");
        }
        return raw("</tr>\n");
    }

    /** Ends a table. */
    Html endTable() {
        return raw("</tbody></table>\n");
    }

    /** Text safe in content and in quoted attributes; control characters are shown as U+FFFD. */
    static String escape(String text) {
        StringBuilder safe = new StringBuilder(text.length() + 16);
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.append(c < 0x20 && c != '\n' && c != '\t' || c == 0x7f ? '\ufffd' : c);
            }
        }
        return safe.toString();
    }

    @Override
    public String toString() {
        return out.toString();
    }
}

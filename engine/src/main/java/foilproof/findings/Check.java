package foilproof.findings;

import java.util.List;

/**
 * One check of the catalogue. A check reads an {@link Examination} and adds what it finds; it holds no state, so that
 * the same examination always gives the same findings.
 */
public interface Check {
    /** The kinds that this check may raise. */
    List<String> kinds();

    /** The rows of the catalogue of needs that this check decides, e.g. {@code "A7"}. */
    List<String> needsRows();

    /** Looks, and adds what it finds. */
    void examine(Examination examination, FindingCollector out);
}

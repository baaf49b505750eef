package foilproof.report;

import foilproof.findings.Examination;
import foilproof.findings.Finding;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a report shows beside the result's numbers.
 *
 * @param pictures pictures of the whole board, in the order of the report
 * @param lines the text of program lines
 * @param closeUps pictures of single findings
 * @param examination the examined job, for drawings of the bench; null where only numbers are shown
 */
public record ReportExtras(
        List<FlatPicture> pictures,
        LineText lines,
        CloseUps closeUps,
        @Nullable Examination examination) {
    /** Nothing beside the numbers. */
    public static final ReportExtras NONE = new ReportExtras(List.of(), (program, line) -> null, finding -> null);

    /** Without drawings of the bench. */
    public ReportExtras(List<FlatPicture> pictures, LineText lines, CloseUps closeUps) {
        this(pictures, lines, closeUps, null);
    }

    /** Copies the list. */
    public ReportExtras {
        pictures = List.copyOf(pictures);
    }

    /** Finds program text. */
    @FunctionalInterface
    public interface LineText {
        /** The text of a physical line, from 1, or null where it is not known. */
        @Nullable
        String of(String program, int line);
    }

    /** Draws close-ups. */
    @FunctionalInterface
    public interface CloseUps {
        /** A picture about 20 mm wide or smaller around the finding's place, or null where there is none. */
        @Nullable
        FlatPicture of(Finding finding);
    }
}

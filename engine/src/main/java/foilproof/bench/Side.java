package foilproof.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One side of the blank as it is milled, in order.
 *
 * @param number from 1, in the order milled
 * @param face which copper layer of the design faces up now
 * @param turned how the blank was turned over after the previous side
 * @param workZeroMm from the blank's lower-left corner as it lies now
 * @param zZero what Z 0 is
 * @param touchOffMm where each tool is touched off, from the blank's lower-left corner, or null where not said
 * @param probeClipMm where the clip of an electric touch-off sits, or null where not said
 * @param deburred the other face was deburred before this one was laid down
 * @param pinsMm indication pins, from the blank's lower-left corner as it lies now
 * @param surface the foil top as it lies now
 * @param hold how the blank is held now
 * @param tapeMm thickness of the tape below it, mm
 * @param programs in the order they run
 */
public record Side(
        int number,
        Face face,
        Turn turned,
        XyMm workZeroMm,
        ZZero zZero,
        @Nullable XyMm touchOffMm,
        @Nullable XyMm probeClipMm,
        boolean deburred,
        List<XyMm> pinsMm,
        Surface surface,
        Hold hold,
        double tapeMm,
        List<ProgramEntry> programs) {
    public Side {
        pinsMm = List.copyOf(pinsMm);
        programs = List.copyOf(programs);
    }

    /** The same side with its programs' X0 Y0 elsewhere, mm from the blank's lower-left corner as it lies. */
    public Side withWorkZero(XyMm newWorkZeroMm) {
        return new Side(
                number,
                face,
                turned,
                newWorkZeroMm,
                zZero,
                touchOffMm,
                probeClipMm,
                deburred,
                pinsMm,
                surface,
                hold,
                tapeMm,
                programs);
    }

    /** The same side with another Z 0. */
    public Side withZZero(ZZero newZZero) {
        return new Side(
                number,
                face,
                turned,
                workZeroMm,
                newZZero,
                touchOffMm,
                probeClipMm,
                deburred,
                pinsMm,
                surface,
                hold,
                tapeMm,
                programs);
    }

    /** The same side with the foil top lying otherwise. */
    public Side withSurface(Surface newSurface) {
        return new Side(
                number,
                face,
                turned,
                workZeroMm,
                zZero,
                touchOffMm,
                probeClipMm,
                deburred,
                pinsMm,
                newSurface,
                hold,
                tapeMm,
                programs);
    }

    /** The same side with other programs, in the order they run. */
    public Side withPrograms(List<ProgramEntry> newPrograms) {
        return new Side(
                number,
                face,
                turned,
                workZeroMm,
                zZero,
                touchOffMm,
                probeClipMm,
                deburred,
                pinsMm,
                surface,
                hold,
                tapeMm,
                newPrograms);
    }
}

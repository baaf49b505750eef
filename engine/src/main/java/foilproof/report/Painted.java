package foilproof.report;

import java.util.IdentityHashMap;

/** Sheets painted once and used in the page and as files. */
final class Painted {
    private final IdentityHashMap<FlatPicture, byte[]> sheets = new IdentityHashMap<>();

    byte[] png(FlatPicture picture) {
        return sheets.computeIfAbsent(picture, PictureSheet::png);
    }
}

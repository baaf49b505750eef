package foilproof.design;

/** Connected pieces of some objects' copper, numbered from 0. */
interface PieceSet {
    /** Number of pieces. */
    int pieceCount();

    /** Area of a piece, mm2. */
    double pieceAreaMm2(int piece);

    /** The piece at a point, or -1. */
    int pieceAt(double x, double y);

    /** False where areas are good to a scan line only. */
    boolean exact();

    /** Area of all pieces, mm2. */
    default double areaMm2() {
        double sum = 0;
        for (int i = 0; i < pieceCount(); i++) {
            sum += pieceAreaMm2(i);
        }
        return sum;
    }

    /** A figure that is connected by its making. */
    record OnePiece(Figure figure) implements PieceSet {
        @Override
        public int pieceCount() {
            return 1;
        }

        @Override
        public double pieceAreaMm2(int piece) {
            return figure.areaMm2();
        }

        @Override
        public int pieceAt(double x, double y) {
            return figure.contains(x, y) ? 0 : -1;
        }

        @Override
        public boolean exact() {
            return true;
        }
    }

    /** No copper. */
    PieceSet NONE = new PieceSet() {
        @Override
        public int pieceCount() {
            return 0;
        }

        @Override
        public double pieceAreaMm2(int piece) {
            throw new IndexOutOfBoundsException(piece);
        }

        @Override
        public int pieceAt(double x, double y) {
            return -1;
        }

        @Override
        public boolean exact() {
            return true;
        }
    };
}

package foilproof.corpus;

import foilproof.findings.Severity;
import java.util.ArrayList;
import java.util.List;

/** All plants of the corpus, by chapters of the catalogue of needs. */
final class Plants {
    private final List<Plant> all = new ArrayList<>();

    private Plants() {}

    /** Every plant, in the order of the catalogue's chapters. */
    static List<Plant> all() {
        Plants plants = new Plants();
        TextPlants.add(plants);
        SetUpPlants.add(plants);
        CutterPlants.add(plants);
        GroovePlants.add(plants);
        LoopPlants.add(plants);
        StripPlants.add(plants);
        HolePlants.add(plants);
        OutlinePlants.add(plants);
        FixturePlants.add(plants);
        NetPlants.add(plants);
        HeatPlants.add(plants);
        ShopPlants.add(plants);
        return plants.all;
    }

    /** Adds one fault of a row and what it must be told as. */
    void add(String row, String kind, Severity severity, Plant.Planter planter) {
        all.add(new Plant(row, kind, severity, planter));
    }
}

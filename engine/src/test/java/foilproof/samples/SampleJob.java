package foilproof.samples;

import java.util.List;
import java.util.Map;

/** A sample job: what its generator writes. Job file, story and expected findings lie beside it, written by hand. */
interface SampleJob {
    /** Name of its folder. */
    String folder();

    /** Text of the generated files by name. */
    Map<String, String> files();

    /** Every sample that has a generator. */
    static List<SampleJob> all() {
        return List.of(
                new ThermistorAmplifier(),
                new CurvedLampInsert(),
                new TwoSideMotorBridge(),
                new FinePitchBreakout(),
                new KeypadPanel(),
                new IrrigationPumpDriver());
    }
}

package foilproof.bench;

import foilproof.source.InputException;
import foilproof.source.SourceFile;
import foilproof.source.SourceSpan;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Reads a job: job file, shop file and settings are merged into one tree of values that know their places, the tree is
 * read key by key, and everything that is wrong is told at once. Defaults that are used are listed in
 * {@link Job#assumed()}; what is unknown stays unknown.
 */
public final class JobReader {
    private final JobSource source;
    private final ReadOptions options;
    private final Problems problems = new Problems();
    private final Assumed assumed = new Assumed();
    private final Inputs inputs;
    private String shopName = "";

    private JobReader(JobSource source, ReadOptions options) {
        this.source = source;
        this.options = options;
        this.inputs = new Inputs(source.files(), options, problems);
    }

    /**
     * Reads a job file, or puts a bare program on the default bench.
     *
     * @throws InputException where the job cannot be run, with everything that is wrong in the order of the file
     */
    public static Job read(JobSource source, ReadOptions options) throws InputException {
        JobReader reader = new JobReader(source, options);
        return source.isJobFile() ? reader.jobFile() : reader.bareProgram();
    }

    private Job jobFile() throws InputException {
        SourceSpan whole = SourceSpan.ofFile(source.file());
        SourceFile file = inputs.file(source.file(), whole, "job", TomlLoader.MOST_BYTES);
        problems.throwIfAny();
        Node.Tab root = file == null ? null : TomlLoader.load(file, options.limits(), problems);
        problems.throwIfAny();
        if (root == null) {
            throw new IllegalStateException("a job file is read or refused");
        }
        return merged(root, true);
    }

    private Job bareProgram() throws InputException {
        SourceSpan whole = SourceSpan.ofFile(source.file());
        SourceFile file =
                inputs.file(source.file(), whole, "program", options.limits().fileBytes());
        problems.throwIfAny();
        if (file == null) {
            throw new IllegalStateException("a program is read or refused");
        }
        DefaultBench bench = DefaultBench.of(file, options.limits());
        Node.Tab root = TomlLoader.load(SourceFile.ofText("default bench", bench.toml()), options.limits(), problems);
        problems.throwIfAny();
        if (root == null) {
            throw new IllegalStateException("the default bench is a sound job file");
        }
        bench.assumed().forEach(assumed::add);
        return merged(root, false);
    }

    private Job merged(Node.Tab root, boolean sizeKnown) throws InputException {
        Settings settings = new Settings(problems);
        SourceFile shopFile = shop(root, settings);
        if (shopFile != null) {
            shopName = shopFile.name();
            Node.Tab shop = TomlLoader.load(shopFile, options.limits(), problems);
            problems.throwIfAny();
            if (shop != null) {
                ShopFile.check(shop, problems);
                ShopFile.mergeInto(root, shop);
            }
        }
        settings.apply(root, options.settings());
        Job job = job(new Keys(root, "", problems), settings, sizeKnown);
        problems.throwIfAny();
        return job;
    }

    /** The shop file in force: the command line's, else the job's own, else the user's. */
    private @Nullable SourceFile shop(Node.Tab root, Settings settings) {
        String set = settings.rootValue(options.settings(), "shop");
        Keys keys = new Keys(root, "", problems);
        if (options.shop() != null) {
            inputs.add(options.shop());
            return options.shop();
        }
        if (set != null) {
            return inputs.file(set, SourceSpan.ofFile("--set shop"), "shop", TomlLoader.MOST_BYTES);
        }
        if (keys.has("shop")) {
            return inputs.file(keys, "shop", "shop.toml", TomlLoader.MOST_BYTES);
        }
        if (options.userShop() != null) {
            inputs.add(options.userShop());
            assumed.add(
                    "the user's own shop file was used: " + options.userShop().name());
        }
        return options.userShop();
    }

    private Job job(Keys root, Settings settings, boolean sizeKnown) {
        String name = root.string("job", "Soil probe front end");
        root.has("shop");
        BenchReader bench = new BenchReader(problems, assumed);
        Blank blank = bench.blank(root, sizeKnown);
        SpoilBoard spoilBoard = bench.spoilBoard(root);
        Limits limits = bench.limits(root);
        Machine machine = bench.machine(root, limits);
        List<Tool> tools = new ToolReader(assumed).tools(root);
        List<String> toolNames = new ArrayList<>();
        for (Keys tool : root.tables("tool")) {
            if (tool.node("name") instanceof Node.Scalar scalar && scalar.text() != null) {
                toolNames.add(String.valueOf(scalar.text()));
            }
        }
        Spread spread = bench.spread(root, new LinkedHashSet<>(toolNames), shopName);
        List<Side> sides = new SideReader(problems, assumed, inputs, bench, blank, toolNames).sides(root);
        List<KeepOut> keepOuts = bench.keepOuts(root);
        DesignReader intended = new DesignReader(problems, assumed, inputs);
        DesignFiles design = intended.design(root);
        List<Net> nets = intended.nets(root);
        List<Join> joins = intended.joins(root);
        root.close();
        return new Job(
                name == null ? source.file() : name,
                source.file(),
                blank,
                spoilBoard,
                machine,
                spread,
                tools,
                sides,
                keepOuts,
                design,
                nets,
                joins,
                limits,
                settings.whatIf(toolNames),
                assumed.lines(),
                inputs.all());
    }
}

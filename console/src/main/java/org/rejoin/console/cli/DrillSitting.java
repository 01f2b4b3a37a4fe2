package org.rejoin.console.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.drill.NextDrill;
import org.rejoin.console.drill.NoDrillException;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code drill sitting}: the drills of one sitting, or of homework, as one package. */
@Command(
        name = "sitting",
        description =
                "Choose the drills of one sitting, the first an easy one, and write them as lessons: as a folder, or as one"
                        + " .zip file to take home. What is flown of them comes back as recordings.")
final class DrillSitting extends AnyCommand.Verbose {

    private static final int FEWEST = 1;
    private static final int MOST = 12;

    @Mixin
    ForPilot who = new ForPilot();

    @Mixin
    DrillWishes wishes = new DrillWishes();

    @Option(
            names = "--count",
            paramLabel = "N",
            defaultValue = "5",
            description = "How many drills (default: 5; 4 to 6 fill 30 to 45 minutes).")
    int count = 5;

    @Option(names = "--goal", paramLabel = "TEXT", description = "What it is for, in the instructor's words.")
    @Nullable
    String goal;

    @Option(
            names = "--out",
            required = true,
            paramLabel = "DIR|FILE.zip",
            description = "Where to write it; must not exist.")
    Path out = Path.of("");

    @Option(names = "--json", description = "Print the list as one JSON object.")
    boolean json;

    @Override
    public Integer call() throws Exception {
        if (count < FEWEST || count > MOST) {
            throw new BadInput("--count " + count + " is not in 1 to 12");
        }
        if (Files.exists(out)) {
            throw new BadInput("--out " + out + " is there already; name another place");
        }
        DrillChart on = wishes.chart();
        List<NextDrill> chosen = chosen(on);
        Map<String, byte[]> files = files(on, chosen);
        if (String.valueOf(out.getFileName()).toLowerCase(Locale.ROOT).endsWith(".zip")) {
            OutputFile.write("--out", out, zipped(files));
        } else {
            Files.createDirectories(out);
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                Files.write(out.resolve(file.getKey()), file.getValue());
            }
        }
        PrintWriter to = out();
        if (json) {
            to.print(new String(files.getOrDefault("sitting.json", new byte[0]), StandardCharsets.UTF_8));
        } else {
            for (int i = 0; i < chosen.size(); i++) {
                to.println(name(i) + "  " + chosen.get(i).why());
            }
            to.println("written to " + out + "; fly each in your simulator with: rejoin listen LESSON --out FOLDER");
            to.println(Rejoin.CAUTION);
        }
        return Rejoin.DONE;
    }

    /** Each after the ones before it, as if they had been flown without telling anything. */
    private List<NextDrill> chosen(DrillChart on) throws BadInput, IOException, NoDrillException {
        List<GradedAttempt> attempts = new ArrayList<>(who.attempts(spec));
        List<NextDrill> chosen = new ArrayList<>();
        Instant now = Instant.now();
        for (int i = 0; i < count; i++) {
            NextDrill next = NextDrill.choose(
                    new NextDrill.Known(attempts, who.goal(), now, i == 0),
                    on,
                    wishes.request().withSeed(wishes.seed + i));
            chosen.add(next);
            attempts.add(next.drill().attempt(who.pilot, now, List.of()));
        }
        return chosen;
    }

    private Map<String, byte[]> files(DrillChart on, List<NextDrill> chosen) throws IOException, LessonException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        ObjectNode list = JsonNodeFactory.instance.objectNode();
        list.put("version", 1);
        list.put("pilot", who.pilot);
        list.put("goal", goal == null ? "" : goal);
        list.put("made", LocalDate.now(ZoneOffset.UTC).toString());
        list.put("chart", wishes.chartFileName());
        list.put("chart_sha256", on.sha256());
        ArrayNode drills = list.putArray("drills");
        files.put(wishes.chartFileName(), wishes.chartOctets());
        for (int i = 0; i < chosen.size(); i++) {
            NextDrill next = chosen.get(i);
            files.put(
                    name(i),
                    DrillText.lesson(next.drill(), wishes.chartFileName(), on.sha256())
                            .getBytes(StandardCharsets.UTF_8));
            ObjectNode drill = DrillText.json(next.drill());
            drill.put("lesson", name(i));
            drill.put("skill", next.skill().name());
            drill.put("why", next.why());
            drills.add(drill);
        }
        files.put("README.txt", readMe(chosen).getBytes(StandardCharsets.UTF_8));
        files.put("sitting.json", (list.toPrettyString() + "\n").getBytes(StandardCharsets.UTF_8));
        return files;
    }

    /** For the pilot: which files these are and what to do with them, and nothing of what ATC will say. */
    private String readMe(List<NextDrill> chosen) {
        StringBuilder text = new StringBuilder("Drills for " + CleanText.line(who.pilot) + "\n\n");
        if (goal != null && !goal.isBlank()) {
            text.append("Goal: ").append(CleanText.line(goal)).append("\n\n");
        }
        for (int i = 0; i < chosen.size(); i++) {
            text.append(name(i)).append("  ").append(chosen.get(i).why()).append('\n');
        }
        text.append("\nUnpack all files into one folder and fly the drills in this order, one after the other:\n\n"
                + "  rejoin listen " + name(0) + " --out flown-01\n\n"
                + "Start it, then fly in your own simulator, which sends to the port it names.\n"
                + "Do not read the drills before: ATC's words stand in them. " + wishes.chartFileName()
                + " is the chart, sitting.json is for programs.\n"
                + "Pack the folders flown-01, flown-02 and so on into one .zip file and give it to your instructor, who takes"
                + " it in with:\n\n  rejoin attempts add FILE.zip --pilot NAME\n\n"
                + Rejoin.CAUTION + '\n');
        return text.toString();
    }

    private static String name(int index) {
        return Words.say("drill-%02d.yaml", index + 1);
    }

    private static byte[] zipped(Map<String, byte[]> files) throws IOException {
        ByteArrayOutputStream octets = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(octets)) {
            for (Map.Entry<String, byte[]> file : files.entrySet()) {
                ZipEntry entry = new ZipEntry(file.getKey());
                entry.setLastModifiedTime(FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
                zip.putNextEntry(entry);
                zip.write(file.getValue());
                zip.closeEntry();
            }
        }
        return octets.toByteArray();
    }
}

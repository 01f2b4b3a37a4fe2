package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The real program under the locale, the disk, the settings and the virtual machine's options that it finds. */
@Timeout(value = 3, unit = TimeUnit.MINUTES)
class GuestOfTheSystemTest {

    @TempDir
    private Path folder;

    private Ran run(List<String> java, Map<String, String> environment, File out, String... args) throws Exception {
        Path err = folder.resolve("err.txt");
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-XX:TieredStopAtLevel=1"));
        command.addAll(java);
        command.addAll(List.of("-cp", System.getProperty("java.class.path"), Rejoin.class.getName()));
        command.addAll(List.of(args));
        ProcessBuilder builder = new ProcessBuilder(command).redirectOutput(out).redirectError(err.toFile());
        builder.environment().keySet().removeIf(name -> name.startsWith("LC_") || name.equals("LANG"));
        builder.environment().put("XDG_CONFIG_HOME", folder.resolve("config").toString());
        builder.environment().putAll(environment);
        Process process = builder.start();
        assertThat(process.waitFor(90, TimeUnit.SECONDS)).isTrue();
        String said = out.isFile() ? Files.readString(out.toPath()) : "";
        return new Ran(process.exitValue(), said, new String(Files.readAllBytes(err), StandardCharsets.UTF_8));
    }

    private File toFile() {
        return folder.resolve("out.txt").toFile();
    }

    /** Who pipes a flight onto a full disk is told so, and the exit code says it. */
    @Test
    void aFullDiskUnderStandardOutputEndsWithOne() throws Exception {
        File full = new File("/dev/full");
        assumeTrue(full.exists(), "no device here that is always full");
        Ran ended = run(List.of(), Map.of("LANG", "C.UTF-8"), full, "fly", "--hz", "1");
        assertThat(ended.exit()).isEqualTo(1);
        assertThat(ended.err())
                .contains("rejoin: standard output could not be written")
                .doesNotContain("Exception");
    }

    /** With options that keep it quiet, as the packed program gives them, and an archive that it cannot use. */
    @Test
    void nothingOfTheVirtualMachineIsOnStandardOutput() throws Exception {
        Path archive = Files.writeString(folder.resolve("other.jsa"), "no archive");
        Ran with = run(
                List.of("-Xlog:disable", "-Xlog:all=error:stderr", "-XX:SharedArchiveFile=" + archive),
                Map.of("LANG", "C.UTF-8", "JAVA_TOOL_OPTIONS", "-Xmx256m"),
                toFile(),
                "fly",
                "--list",
                "--json");
        assertThat(with.exit()).isZero();
        assertThat(with.json()).hasSizeGreaterThan(3);
        Ran without = run(List.of(), Map.of("LANG", "C.UTF-8"), toFile(), "fly", "--list", "--json");
        assertThat(without.out()).isEqualTo(with.out());
    }

    /** Java of today finds no such file under that locale: what to set is said, in words, and nothing of classes. */
    @Test
    void aPathThatTheLocaleDoesNotKnowIsSaidInWords() throws Exception {
        assumeTrue(new File("/bin/sh").exists(), "no Unix here");
        Ran ended = run(
                List.of("-Dsun.jnu.encoding=ANSI_X3.4-1968"),
                Map.of("LC_ALL", "C"),
                toFile(),
                "chart",
                folder.resolve("k\u00fcste.yaml").toString());
        assertThat(ended.exit()).isEqualTo(2);
        assertThat(ended.err().lines()).hasSize(1);
        assertThat(ended.err()).contains("LC_ALL=C.UTF-8").doesNotContain("Exception", "java.");
    }

    @Test
    void theSettingsInForceArePrintedWithTheirFile() throws Exception {
        Path file = Files.createDirectories(folder.resolve("config").resolve("rejoin"))
                .resolve("settings.yaml");
        Files.writeString(file, "listen: {port: 4711}\n");
        Ran ended = run(List.of(), Map.of("LANG", "C.UTF-8"), toFile(), "--print-settings");
        assertThat(ended.exit()).as(ended.err()).isZero();
        assertThat(ended.out()).contains(file.toString(), "listen:", "port: 4711");
    }
}

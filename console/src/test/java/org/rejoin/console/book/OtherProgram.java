package org.rejoin.console.book;

import java.io.File;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.slf4j.Logger;
import org.sqlite.SQLiteDataSource;

/** Another program on the same data folder. */
final class OtherProgram {

    private OtherProgram() {}

    /** Starts a class of these tests; its output goes to a file that survives it. */
    static Process start(Class<?> main, Path output, String... arguments) throws IOException, URISyntaxException {
        Set<String> places = new LinkedHashSet<>();
        for (Class<?> each : List.of(
                main,
                HomeFolder.class,
                ObjectMapper.class,
                JsonFactory.class,
                JsonProperty.class,
                Logger.class,
                SQLiteDataSource.class)) {
            places.add(Path.of(each.getProtectionDomain()
                            .getCodeSource()
                            .getLocation()
                            .toURI())
                    .toString());
        }
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                String.join(File.pathSeparator, places),
                main.getName()));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command)
                .redirectOutput(output.toFile())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
    }
}

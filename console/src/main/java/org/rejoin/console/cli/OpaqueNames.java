package org.rejoin.console.cli;

import java.io.IOException;
import java.util.HexFormat;
import java.util.function.UnaryOperator;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.door.KeyedHash;

/** Names that say nothing of their bearer to anybody without the data folder's secret, always the same. */
record OpaqueNames(KeyedHash key) implements UnaryOperator<String> {

    static OpaqueNames of(HomeFolder home) throws IOException {
        return new OpaqueNames(KeyedHash.of(home.secret(), "opaque names"));
    }

    @Override
    public String apply(String name) {
        return HexFormat.of().formatHex(key.of(name), 0, 4);
    }
}

/**
 * The one reader of the files that people write by hand: YAML in which everything knows its line. Start at
 * {@code YamlText}.
 */
@NullMarked
package org.rejoin.protocol.yaml;

import org.jspecify.annotations.NullMarked;

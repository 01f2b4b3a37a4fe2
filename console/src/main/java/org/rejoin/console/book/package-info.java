/**
 * The record book: the data folder with its attempts, pilots and signatures, and the index that makes its lists fast.
 *
 * <p>Start at {@link org.rejoin.console.book.RecordBook}. The folders of the attempts are the truth; the index beside
 * them is made again from them whenever it is missing, damaged or older. Everything is written beside, forced to the
 * disk and renamed, or appended as one line and forced: a program that is killed loses nothing that was kept. What
 * cannot be read or written is an IOException of one line: which file, what is wrong, what would be right.
 */
@NullMarked
package org.rejoin.console.book;

import org.jspecify.annotations.NullMarked;

// Package measure reads and writes the measures of a load as people type and
// read them: lengths, masses, temperatures, cones and clock bearings, and the
// words for gaps that hands feel.
//
// Inside the program everything is a float64 in one unit: mm, kg, degrees C,
// degrees clockwise from 12 o'clock. This package is the only place where those
// become text and text becomes those. It knows no kiln, no pot and no file.
//
// Three kinds of text are kept apart:
//
//   - file text (FormatFile, FormatMassFile, FormatClock) is exact: reading it
//     again gives the same number, bit for bit;
//   - shown text (FormatLength, FormatMass, FormatTemperature) is rounded to
//     what a rule or a scale can show, lengths to the safe side;
//   - said text (SayGap, SayClock) is what one says across a kiln.
//
// What cannot be read is refused with a sentence that quotes what was typed and
// says what to type. The sentences carry no full stop, so that a caller can put
// "row 7: " before them or more words behind.
package measure

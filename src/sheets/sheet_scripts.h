#pragma once

#include <string>
#include <vector>

#include "sheets/sheet.h"

namespace sheaf::sheet_script {

/// What the teacher does with each kind of sheet: `SheetKind::script` of those
/// that are made of words alone. Those that need what the sheet works out stand
/// in the sheet's own file. The steps are common practice, no source; the
/// wording is ours.

ScriptLines warm_up(const SheetInput& in, const DayStep& step);
ScriptLines discovery(const SheetInput& in, const DayStep& step);
/// Brings in each pattern of the lesson, by what the pattern is: a sound, a
/// blend, an ending, ...
ScriptLines sound_card(const SheetInput& in, const DayStep& step);
ScriptLines picture_sort(const SheetInput& in, const DayStep& step);
ScriptLines word_sort(const SheetInput& in, const DayStep& step);
ScriptLines word_parts(const SheetInput& in, const DayStep& step);
ScriptLines syllables(const SheetInput& in, const DayStep& step);
ScriptLines picture_cards(const SheetInput& in, const DayStep& step);
ScriptLines word_cards(const SheetInput& in, const DayStep& step);
ScriptLines grapheme_cards(const SheetInput& in, const DayStep& step);
ScriptLines blending(const SheetInput& in, const DayStep& step);
ScriptLines sound_boxes(const SheetInput& in, const DayStep& step);
ScriptLines tapping(const SheetInput& in, const DayStep& step);
ScriptLines trace(const SheetInput& in, const DayStep& step);
ScriptLines cover_write(const SheetInput& in, const DayStep& step);
ScriptLines short_dictation(const SheetInput& in, const DayStep& step);
ScriptLines dictation(const SheetInput& in, const DayStep& step);
ScriptLines sentences(const SheetInput& in, const DayStep& step);
ScriptLines passage(const SheetInput& in, const DayStep& step);
ScriptLines hunt(const SheetInput& in, const DayStep& step);
ScriptLines rereading(const SheetInput& in, const DayStep& step);
ScriptLines compose(const SheetInput& in, const DayStep& step);
ScriptLines proofread(const SheetInput& in, const DayStep& step);
/// A step without a sheet: what was taught, or a few minutes left over.
ScriptLines no_sheet(const DayStep& step);
/// "As on day 1." of a sheet that comes back.
std::string as_on(const SheetInput& in, const DayStep& step);

/// What of a sheet one step goes through, for `SheetKind::share`.
std::string share_of_blending(const SheetInput& in, const DayStep& step);
std::string share_of_boxes(const SheetInput& in, const DayStep& step);
std::string share_of_syllables(const SheetInput& in, const DayStep& step);
std::string share_of_sentences(const SheetInput& in, const DayStep& step);
std::string share_of_passage(const SheetInput& in, const DayStep& step);

/// What the teacher needs beside the lines, for `SheetKind::script_extra`.
void sound_card_extra(const SheetInput& in, Composer& composer);
void warm_up_extra(const SheetInput& in, Composer& composer);
void sound_boxes_extra(const SheetInput& in, Composer& composer);
void dictation_extra(const SheetInput& in, Composer& composer);

/// What learners find out, as one sentence for each pattern: for the script of
/// a sort and for mending.
std::vector<std::string> what_is_told(const SheetInput& in);

}  // namespace sheaf::sheet_script

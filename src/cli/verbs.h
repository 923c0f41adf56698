#pragma once

#include "cli/command_line.h"

namespace sheaf {

class Workspace;

/// The verbs of the command line. Each gives the exit code; each throws
/// MachineError where the machine would not.
int run_build(const CommandLine& line);
/// Builds what `build` would; exit code 2 where the command line is wrong.
int build_all(Workspace& workspace, const CommandLine& line);
int run_check(const CommandLine& line);
int run_explain(const CommandLine& line);
int run_word(const CommandLine& line);
int run_patterns(const CommandLine& line);
int run_sheets(const CommandLine& line);
int run_layouts(const CommandLine& line);
int run_pictures(const CommandLine& line);
int run_speech(const CommandLine& line);
int run_schema(const CommandLine& line);
int run_manual(const CommandLine& line);
int run_completions(const CommandLine& line);
int run_dump(const CommandLine& line);
int run_find(const CommandLine& line);
int run_keep(const CommandLine& line);
int run_block(const CommandLine& line);
int run_probe(const CommandLine& line);
int run_draft(const CommandLine& line);
int run_settle(const CommandLine& line);
int run_lsp(const CommandLine& line);
int run_watch(const CommandLine& line);
int run_preview(const CommandLine& line);
int run_record(const CommandLine& line);
int run_mark(const CommandLine& line);
int run_writing(const CommandLine& line);
int run_progress(const CommandLine& line);
int run_review(const CommandLine& line);
int run_week(const CommandLine& line);
int run_placement(const CommandLine& line);
int run_place(const CommandLine& line);
int run_forget(const CommandLine& line);

}  // namespace sheaf

#pragma once

namespace sheaf {

/// Gives a new file the owner, the group, the rights, the access list and the
/// user's own attributes of the file that it takes the place of, as far as the
/// system allows; both are open. Where the group or the access list cannot be
/// kept, the group may do no more than anybody: never more than before. False
/// where the rights cannot be set at all (errno says why).
bool keep_rights(int old_file, int new_file);

/// The rights of any new file, for one that was made for its owner alone.
bool give_usual_rights(int new_file);

}  // namespace sheaf

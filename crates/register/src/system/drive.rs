//! Whether a path lies on this computer, as Linux tells it.

use std::path::Path;

/// The network file system that holds a path, if one is known to. The path, or the nearest directory
/// above it that exists, is asked.
pub(crate) fn network_drive(path: &Path) -> Option<&'static str> {
    let existing = path.ancestors().find(|above| above.exists());
    let current = Path::new(".");
    let asked = match existing {
        Some(above) if above != Path::new("") => above,
        _ => current,
    };
    let magic = rustix::fs::statfs(asked).ok()?.f_type;
    // The kernel's type is wider than the numbers.
    let magic = u32::try_from(magic & 0xffff_ffff).ok()?;
    if magic == FUSE {
        return fuse_over_network(asked);
    }
    kind(magic)
}

/// File systems in user space share one number, on this computer or not; the mount tells which.
const FUSE: u32 = 0x6573_5546;

/// Network file systems among the numbers of the manual page statfs(2).
const fn kind(magic: u32) -> Option<&'static str> {
    Some(match magic {
        0x0000_6969 => "NFS",
        0x0000_517b | 0xfe53_4d42 => "SMB",
        0xff53_4d42 => "CIFS",
        0x0000_564c => "NCP",
        0x5346_414f => "AFS",
        0x7375_7245 => "Coda",
        0x0102_1997 => "9P",
        _ => return None,
    })
}

fn fuse_over_network(path: &Path) -> Option<&'static str> {
    use std::os::unix::fs::MetadataExt as _;

    let device = std::fs::metadata(path).ok()?.dev();
    let device = format!(
        "{}:{}",
        rustix::fs::major(device),
        rustix::fs::minor(device)
    );
    let mounts = std::fs::read_to_string("/proc/self/mountinfo").ok()?;
    is_sshfs(&mounts, &device).then_some("sshfs")
}

/// Whether the device is mounted as sshfs, by `/proc/self/mountinfo`: the device is the third field,
/// the type the first behind the dash.
fn is_sshfs(mounts: &str, device: &str) -> bool {
    mounts.lines().any(|line| {
        line.split(' ').nth(2) == Some(device)
            && line
                .split_once(" - ")
                .is_some_and(|(_, rest)| rest.starts_with("fuse.sshfs "))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers as the manual page statfs(2) prints them.
    #[test]
    fn network_file_systems_are_named_and_others_pass() {
        for (magic, name) in [
            (0x6969, Some("NFS")),
            (0x517b, Some("SMB")),
            (0xfe53_4d42, Some("SMB")),
            (0xff53_4d42, Some("CIFS")),
            (0x5346_414f, Some("AFS")),
            (0x0102_1997, Some("9P")),
            (0xef53, None),      // ext4
            (0x5846_5342, None), // xfs
            (0x0102_1994, None), // tmpfs
            (0x794c_7630, None), // overlayfs
        ] {
            assert_eq!(kind(magic), name, "{magic:#x}");
        }
    }

    #[test]
    fn a_mount_in_user_space_is_told_by_its_type() {
        let mounts = "\
            36 35 98:0 / / rw - ext4 /dev/sda1 rw\n\
            41 36 0:52 / /mnt/far rw,nosuid - fuse.sshfs far:/data rw\n\
            42 36 0:53 / /mnt/near rw,nosuid - fuse.gocryptfs /home/x/.c rw\n";
        assert!(is_sshfs(mounts, "0:52"));
        assert!(!is_sshfs(mounts, "0:53"));
        assert!(!is_sshfs(mounts, "98:0"));
    }

    #[test]
    fn the_drive_of_the_tests_is_local_wherever_it_ends() {
        let directory = tempfile::tempdir().unwrap();
        let deep = directory.path().join("not/yet/there/register.sqlite3");
        assert_eq!(network_drive(&deep), None);
        assert_eq!(network_drive(Path::new("register.sqlite3")), None);
    }
}

//! Apart from `server.rs`, which the browser tests include too.

use crate::server::file;

#[test]
fn serves_only_what_is_in_the_folder() {
    let folder = std::env::temp_dir().join(format!("bathbook-site-{}", std::process::id()));
    std::fs::create_dir_all(folder.join("in")).unwrap();
    std::fs::write(folder.join("in/index.html"), "page").unwrap();
    std::fs::write(folder.join("out.txt"), "secret").unwrap();
    let body = |url| file(url, &folder.join("in"), "/a/b/").map(|(_, bytes)| bytes);
    assert_eq!(body("/a/b/").as_deref(), Some(&b"page"[..]));
    assert_eq!(body("/a/b/index.html?x=1").as_deref(), Some(&b"page"[..]));
    assert_eq!(body("/"), None);
    assert_eq!(body("/a/b/../out.txt"), None);
    assert_eq!(body("/a/b//etc/passwd"), None);
    std::fs::remove_dir_all(folder).unwrap();
}

"""The service below a path of another server, as `deploy/OPERATING.md` has it."""

import json
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from tests.deploy.tools import debian_nginx
from tests.load.fleet import HOST, REPOSITORY, Replica, free_port, until

SERVER = """
daemon off; pid {folder}/pid; error_log stderr;
events {{ }}
http {{
    access_log off;
    client_body_temp_path {folder}; proxy_temp_path {folder}; fastcgi_temp_path {folder};
    uwsgi_temp_path {folder}; scgi_temp_path {folder};
    server {{ listen {host}:{port};
{locations}
    }}
}}
"""


@pytest.fixture(scope="module")
def below_a_path(tmp_path_factory: pytest.TempPathFactory) -> Iterator[httpx.Client]:
    """A client of a server that has the service at `/knit/`."""
    folder, port = tmp_path_factory.mktemp("below"), free_port()
    guide = (REPOSITORY / "deploy/OPERATING.md").read_text("utf-8")
    block = re.search(r"```nginx\n(location /knit/.*?)```", guide, re.DOTALL)
    assert block is not None
    with Replica() as replica:
        locations = block[1].replace("127.0.0.1:8080", f"{HOST}:{replica.port}")
        file = Path(folder, "nginx.conf")
        file.write_text(SERVER.format(folder=folder, host=HOST, port=port, locations=locations))
        command = [debian_nginx(), "-e", "stderr", "-p", f"{folder}/", "-c", str(file)]
        with subprocess.Popen(command, stderr=subprocess.DEVNULL) as server:
            with httpx.Client(base_url=f"http://{HOST}:{port}") as client:
                until(lambda: _answers(client), "the server listens")
                yield client
            server.terminate()


def _answers(client: httpx.Client) -> bool:
    try:
        return client.get("/knit/v1/standards").is_success
    except httpx.TransportError:
        return False


def test_a_picture_of_an_answer_is_found(below_a_path: httpx.Client) -> None:
    """The address in the answer leads to the picture, through the same server."""
    answer = below_a_path.post("/knit/v1/crown", json={"stitches": 96, "style": "wedge"}).json()

    assert answer["drawing"].startswith("/knit/v1/drawings/crown.svg?")
    assert "image/svg+xml" == below_a_path.get(answer["drawing"]).headers["content-type"]


def test_the_kind_of_a_problem_is_found(below_a_path: httpx.Client) -> None:
    """`type` leads to the page of its kind, and `instance` is the address that was called."""
    problem = below_a_path.post("/knit/v1/crown", json={"stitches": 1}).json()

    assert below_a_path.get(problem["type"]).is_success
    assert "/knit/v1/crown" == problem["instance"]


def test_the_document_names_its_server(below_a_path: httpx.Client) -> None:
    """A client made from the document calls the addresses below the path, once with it."""
    document = json.loads(below_a_path.get("/knit/openapi.json").content)
    (server,) = document["servers"]

    assert "/knit/" == server["url"]
    assert "/v1/crown" in document["paths"]


@pytest.mark.parametrize("page", ["/knit/", "/knit/docs"])
def test_what_a_page_loads_is_found(page: str, below_a_path: httpx.Client) -> None:
    """Styles, scripts and pictures of a page have relative addresses."""
    html = below_a_path.get(page, headers={"accept": "text/html"}, follow_redirects=True)
    loaded = re.findall(r'(?:src|<link[^>]*href)="([^"#?]+)"', html.text)

    assert loaded
    assert all(below_a_path.get(str(html.url.join(address))).is_success for address in loaded)
